"""Spanish prose; the mark-up is that of texts_fr."""

ES = """
@4.1 Descripción de los primeros auxilios
*Indicaciones generales|Ante la duda o si persisten los síntomas, solicitar atención médica y mostrar esta ficha. No administrar nunca nada por vía oral a personas inconscientes.
*Por inhalación|Situar al accidentado al aire libre, mantenerlo caliente y en reposo. Si la respiración es irregular, practicar respiración artificial.
*Por contacto con la piel|Quitar la ropa contaminada. Lavar la piel con agua y jabón neutro. No emplear disolventes.
[corr]Las quemaduras químicas deben ser tratadas de inmediato por un médico.
*Por contacto con los ojos|Retirar las lentes de contacto. Lavar con abundante agua limpia y fresca durante al menos quince minutos, tirando hacia arriba de los párpados.
*Por ingestión|Enjuagar la boca. No provocar el vómito. Mantener a la persona en reposo y pedir consejo médico.
@4.2 Principales síntomas y efectos, agudos y retardados
[flam]Dolor de cabeza, vértigo, fatiga y, en casos extremos, pérdida del conocimiento.
[corr]Dolor, enrojecimiento, ampollas y destrucción de los tejidos.
[mild]No se conocen efectos en las condiciones normales de uso.
El contacto repetido puede causar dermatitis por eliminación de la grasa natural de la piel.
@4.3 Indicación de toda atención médica y de los tratamientos especiales que deban dispensarse inmediatamente
Tratamiento sintomático.
@5.1 Medios de extinción
*Medios apropiados|Espuma resistente al alcohol, polvo extintor, CO2, agua pulverizada.
*Medios no apropiados|Chorro directo de agua.
@5.2 Peligros específicos derivados de la sustancia o la mezcla
El fuego puede producir un espeso humo negro. Productos de descomposición: {decomp}.
[flam]Los vapores son más pesados que el aire y pueden inflamarse a distancia.
@5.3 Recomendaciones para el personal de lucha contra incendios
Equipo de respiración autónomo y traje de protección completo. Refrigerar con agua los recipientes próximos. Evitar que el agua de extinción llegue a desagües o cursos de agua.
@6.1 Precauciones personales, equipo de protección y procedimientos de emergencia
Ventilar la zona. Evitar respirar los vapores. Véase la sección 8.
[flam]Eliminar los puntos posibles de ignición.
@6.2 Precauciones relativas al medio ambiente
Evitar la contaminación de desagües, aguas superficiales o subterráneas y del suelo.
@6.3 Métodos y material de contención y de limpieza
Recoger el vertido con materiales absorbentes no combustibles (tierra, arena, vermiculita). Depositar en recipientes adecuados y limpiar la zona con abundante agua.
@6.4 Referencia a otras secciones
Para el control de la exposición, véase la sección 8. Para la eliminación de los residuos, la sección 13.
@7.1 Precauciones para una manipulación segura
Evitar el contacto con la piel y los ojos. No fumar, comer ni beber en la zona de aplicación. Cumplir la legislación sobre seguridad e higiene en el trabajo.
[flam]Utilizar calzado y equipos antiestáticos. Los trapos impregnados se guardan en recipientes metálicos cerrados.
@7.2 Condiciones de almacenamiento seguro, incluidas posibles incompatibilidades
Almacenar en los envases originales, entre 5 °C y 30 °C, en lugar seco y bien ventilado, lejos de fuentes de calor y de la luz solar directa.
*Mantener alejado de|{incompat}
@7.3 Usos específicos finales
Cuidado y restauración del cuero.
@8.2 Controles de la exposición
*Controles técnicos apropiados|Ventilación adecuada, preferiblemente mediante extracción localizada.
*Protección de los ojos|Gafas de seguridad con protección lateral, EN 166.
*Protección de las manos|{gloves}
*Protección respiratoria|{filter}
*Protección del cuerpo|Ropa de trabajo de manga larga.
@10.1 Reactividad
El producto no presenta peligros debido a su reactividad en condiciones normales.
@10.2 Estabilidad química
Estable en las condiciones recomendadas de manipulación y almacenamiento.
@10.3 Posibilidad de reacciones peligrosas
{reactions}
@10.4 Condiciones que deben evitarse
Calor excesivo, heladas, fuentes de ignición.
@10.5 Materiales incompatibles
{incompat}
@10.6 Productos de descomposición peligrosos
{decomp}
@12.1 Toxicidad
No se dispone de información relativa a la ecotoxicidad de la mezcla.
@12.2 Persistencia y degradabilidad
Los tensioactivos cumplen los criterios de biodegradabilidad del Reglamento (CE) n.º 648/2004.
@12.3 Potencial de bioacumulación
No se espera bioacumulación.
@12.4 Movilidad en el suelo
Sin datos.
@12.5 Resultados de la valoración PBT y mPmB
Ningún componente cumple los criterios.
@12.6 Propiedades de alteración endocrina
Ninguna conocida.
@12.7 Otros efectos adversos
No se conocen.
@13.1 Métodos para el tratamiento de residuos
No se permite su vertido en alcantarillas o cursos de agua. Los residuos deben entregarse a un gestor autorizado. Código LER: {waste}.
@15.1 Reglamentación y legislación en materia de seguridad, salud y medio ambiente específicas para la sustancia o la mezcla
Reglamento (CE) n.º 1907/2006 (REACH); Reglamento (CE) n.º 1272/2008 (CLP); Ley 7/2022 de residuos y suelos contaminados.
{national}
@15.2 Evaluación de la seguridad química
No se ha llevado a cabo una evaluación de la seguridad química de la mezcla.
"""

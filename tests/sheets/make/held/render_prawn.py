import json
import os
import subprocess


def prawn(doc, o, pdf, tmp):
    here = os.path.dirname(os.path.abspath(__file__))
    sections = [{"heading": s["heading"], "blocks": s["blocks"]} for s in doc["sections"]]
    data = json.dumps({"doc": {"title": doc["title"], "sections": sections}, "o": o})
    subprocess.run(["ruby", os.path.join(here, "render_prawn.rb"), pdf], input=data.encode(), check=True)

# Blocks (JSON on standard input) to PDF with Prawn: ruby render_prawn.rb OUT.pdf < in.json
require "json"
require "prawn"
require "prawn/table"

input = JSON.parse($stdin.read)
doc, o = input["doc"], input["o"]
fonts = o["fonts"]
info = { Creator: "held", CreationDate: Time.at(1_700_000_000) }
pdf = Prawn::Document.new(page_size: o["paper"], margin: o["margin"], info: info, page_layout: (o["landscape"] ? :landscape : :portrait))
pdf.font_families.update("F" => { normal: fonts[0], bold: fonts[1], italic: fonts[0] })
pdf.font "F"
pdf.font_size o["fs"]
pdf.default_leading 1.5
W = pdf.bounds.width

def esc(s)
  s.gsub("&", "&amp;").gsub("<", "&lt;").gsub(">", "&gt;")
end

def grid(pdf, o, widths, header, rows, size)
  total = W * (o["tw"] || 1.0)
  data = header ? [header] + rows : rows
  pdf.table(data, header: !header.nil?, column_widths: widths.map { |w| total * w / 100.0 }, cell_style: { size: size, padding: [2, 4, 3, 4], borders: (o["borders"] || %w[top bottom left right]).map(&:to_sym), border_width: 0.4 }) do
    if header
      row(0).font_style = :bold
      row(0).background_color = o["th"] if o["th"]
    end
  end
  pdf.move_down 5
end

pdf.text doc["title"], size: o["fs"] + 8, style: :bold
o["head_lines"].each { |l| pdf.text l }
pdf.move_down 4
flow = lambda do
  doc["sections"].each do |s|
    pdf.start_new_page if !o["columns"] && pdf.cursor < 70
    pdf.move_down 8
    if o["bar"]
      pdf.table([[s["heading"]]], width: W, cell_style: { background_color: o["bar"], text_color: "FFFFFF", font_style: :bold, borders: [], padding: [3, 6, 5, 6] })
      pdf.move_down 3
    else
      pdf.text s["heading"], style: :bold, size: o["fs"] + 2, character_spacing: (o["spacing"] || 0)
      pdf.stroke_horizontal_rule if o["rule"]
      pdf.move_down 3
    end
    s["blocks"].each do |b|
      case b[0]
      when "sub"
        pdf.move_down 3
        pdf.text [b[1], b[2]].reject(&:empty?).join(" "), style: :bold
      when "kv"
        if b[2].empty?
          pdf.text b[1] + ":", style: :bold
        elsif o["kv"] == "hang"
          grid(pdf, o.merge("borders" => []), [32, 68], nil, [[b[1], b[2]]], o["fs"])
          pdf.move_up 6
        else
          pdf.text "<b>#{esc(b[1])}:</b> #{esc(b[2])}", inline_format: true
        end
      when "p" then b[1].empty? ? pdf.move_down(5) : pdf.text(b[1])
      when "note" then pdf.text b[1], size: o["fs"] - 2
      when "li" then b[1].each { |i| pdf.text "• " + i, indent_paragraphs: 8 }
      when "codes"
        b[1].each { |c, t| pdf.text "#{c}#{o["code_sep"] || " "}#{t}" }
      when "table"
        pdf.move_down 3
        grid(pdf, o, b[4], b[2], b[3], (o["tsize"] || {})[b[1]] || o["fs"] - 1)
      when "break" then pdf.start_new_page
      else raise b[0]
      end
    end
  end
end
flow.call
pdf.repeat(:all) do
  pdf.draw_text o["header"][0], at: [0, pdf.bounds.top + 14], size: o["fs"] - 1
  pdf.draw_text o["header"][1], at: [W - pdf.width_of(o["header"][1], size: o["fs"] - 1), pdf.bounds.top + 14], size: o["fs"] - 1
end
pdf.number_pages o["number"], at: [W - 120, -16], width: 120, align: :right, size: o["fs"] - 1
pdf.render_file ARGV[0]

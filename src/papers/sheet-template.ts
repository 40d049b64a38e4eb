/**
 * The papers for the shop floor and the customer in typst. No word of any paper stands here: everything said comes in
 * as JSON, so that nothing a person typed is ever read as typst source. `data.size` is the size of the text in points;
 * nothing is set smaller than `least`.
 */
export const leastSize = 7.5;

export const sheetTemplate = `
#let data = json(bytes(sys.inputs.data))
#let ink = rgb("#26282b")
#let muted = rgb("#5b5f63")
#let line-colour = rgb("#b9b6ac")
#let panel = rgb("#f6f4ee")
#let accent = rgb("#b4541a")
#let least = ${leastSize}pt
#let size = data.size * 1pt
#let small = calc.max(least, size * 0.9)

#set document(title: data.title, author: data.authors, date: none, keywords: data.keywords)
#set text(font: "DejaVu Sans", size: size, fill: ink, lang: data.language, hyphenate: false)
// the last means before anything is left out
#let lead = data.lead * (if data.mix { 0.9 } else { 1 }) * 1em
#set par(leading: lead, spacing: lead * 1.2, justify: false)
#set page(
  paper: "a4", flipped: not data.upright,
  margin: (left: 10mm, right: 10mm, top: 8mm, bottom: 12mm),
  footer-descent: 2.5mm,
  footer: context {
    set text(size: least, fill: muted)
    stack(spacing: 2.5pt, line(length: 100%, stroke: 0.4pt + line-colour),
      grid(columns: (1fr, auto), column-gutter: 10pt, align: (left, right),
        data.footer, [#data.pageWord #counter(page).display() / #counter(page).final().first()]))
  },
)
#show heading: set block(sticky: true)
#show heading.where(level: 1): it => block(below: 0.45em, text(size: size * (if data.mix { 1.3 } else { 1.45 }), it.body))
#show heading.where(level: 2): it => block(above: if data.roomy { 1.3em } else if data.mix { 0.65em } else { 0.85em }, below: lead * 0.9, text(size: size * 1.12, fill: accent, it.body))
#set list(indent: 0pt, body-indent: 0.45em, spacing: lead)

#let blank(unit) = {
  box(width: 1fr, height: 0.9em, stroke: (bottom: 0.5pt + ink))
  if unit != "" { [ #unit] }
}
#let cell(c) = if c.kind == "text" { c.words } else if c.kind == "tick" { text(size: 1.15em, "☐") } else { blank(c.unit) }
#let lines(items) = if items.len() > 0 { list(..items) }
#let fact-column(rows, share) = {
  for row in rows {
    block(above: lead, below: lead, width: 100%, breakable: false,
      grid(columns: (share, 1fr), column-gutter: 6pt,
        text(fill: muted, hyphenate: true, row.name),
        { if row.value.kind == "blank" { v(data.write * 1pt - 2pt) }; cell(row.value); if row.note != "" { h(0.5em); text(fill: muted, row.note) } }))
  }
}
// short facts over the whole width stand in two columns, read down one and then the other
#let facts(rows, wide) = block(above: 0.45em, below: 0.45em, width: 100%, {
  if wide and rows.len() >= 6 and rows.all(row => row.value.kind == "text" and row.value.words.len() < 34) {
    let half = calc.ceil(rows.len() / 2)
    grid(columns: (1fr, 1fr), column-gutter: 14pt,
      fact-column(rows.slice(0, half), 42%), fact-column(rows.slice(half), 42%))
  } else { fact-column(rows, if wide { 28% } else { 33% }) }
})
#let strip(rows) = block(width: 100%, stroke: 0.6pt + line-colour, radius: 2pt, inset: (x: 4pt, y: 4pt), above: 0.6em, below: 0.7em, breakable: false,
  grid(columns: rows.map(row => calc.max(row.name.len(), row.value.words.len() * 1.25, 7) * 1fr), column-gutter: 3pt,
    ..rows.map(row => { text(size: least, fill: muted, hyphenate: true, row.name); linebreak(); text(weight: "bold", row.value.words) })))
#let signs(b) = block(width: 100%, above: 0.7em, below: 0pt, breakable: false,
  grid(columns: (1fr,) * b.rows.len(), column-gutter: 12pt,
    ..b.rows.map(row => {
      row.name
      if row.value.kind == "text" { [: ]; text(weight: "bold", row.value.words) }
      block(above: if data.mix { 6.5mm } else { 7.5mm }, below: 2.4pt, line(length: 100%, stroke: 0.5pt + ink))
      text(size: least, fill: muted, b.words)
    })))
#let sentence(s) = if s.language == data.language { s.words } else { s.mark; [ ]; text(lang: s.language, s.words) }
#let halves(items) = {
  let half = calc.ceil(items.len() / 2)
  grid(columns: (1fr, 1fr), column-gutter: 10pt, lines(items.slice(0, half)), lines(items.slice(half)))
}
#let framed(b, columns) = block(width: 100%, stroke: 0.9pt + accent, radius: 2pt, inset: (x: 5pt, y: 4pt), above: 0.7em, below: 0.7em, breakable: false, {
  text(fill: accent, weight: "bold", size: size * 1.08, b.title)
  if b.lead != "" { par(text(weight: "bold", b.lead)) }
  let items = b.items.map(sentence)
  if columns > 1 and items.len() > 3 { halves(items) } else { lines(items) }
  for notice in b.notices { par(text(style: "italic", fill: muted, sentence(notice))) }
})
#let banner(b) = block(width: 100%, fill: panel, stroke: (left: 3pt + (if b.tone == "warn" { accent } else { line-colour })), inset: (x: 7pt, y: 4pt), above: 0.6em, below: 0.6em, breakable: false, {
  text(size: size * 1.2, weight: "bold", b.words)
  if b.detail != "" { if b.words.len() > 48 { linebreak() } else { h(0.8em) }; b.detail }
})
#let data-table(b) = {
  let fill-in = b.rows.any(row => row.any(c => c.kind == "blank"))
  set text(size: small)
  if b.caption != "" { block(above: 0.5em, below: 0.35em, sticky: true, text(fill: muted, b.caption)) }
  block(above: 0.4em, below: 0.6em, breakable: b.rows.len() > 12, width: 100%, table(
    columns: b.columns.map(c => c.share * 1fr),
    stroke: 0.4pt + line-colour, inset: (x: 2.5pt, y: if fill-in { data.write * 1pt } else { 2.6pt }),
    align: (x, y) => (if b.columns.at(x).align == "right" { right } else { left }) + (if y == 0 { top } else { horizon }),
    table.header(..b.columns.map(c => text(weight: "bold", fill: muted, hyphenate: true, { c.name; if c.unit != "" { linebreak(); text(hyphenate: false, c.unit) } }))),
    ..b.rows.flatten().map(c => if c.kind == "blank" { align(right, text(fill: muted, c.unit)) } else { text(hyphenate: true, cell(c)) }),
  ))
}
#let sketch(b) = block(breakable: false, above: 0.4em, below: 0.4em, {
  show figure: set align(left)
  text(weight: "bold", b.label)
  v(-0.3em)
  figure(image(bytes(b.svg), format: "svg", width: b.width * 1mm, alt: b.alt), alt: b.alt, caption: none, kind: image, supplement: none, numbering: none, outlined: false)
})
#let render(b, columns) = {
  if b.kind == "text" { block(sticky: true, above: 0.5em, below: 0.4em, b.words) }
  else if b.kind == "list" { lines(b.items) }
  else if b.kind == "ticks" { list(marker: text(size: 1.1em, "☐"), ..b.items) }
  else if b.kind == "facts" { facts(b.rows, columns > 1) }
  else if b.kind == "strip" { strip(b.rows) }
  else if b.kind == "signs" { signs(b) }
  else if b.kind == "table" { data-table(b) }
  else if b.kind == "box" { framed(b, columns) }
  else if b.kind == "banner" { banner(b) }
  else if b.kind == "sketches" { grid(columns: b.list.len(), column-gutter: 8pt, ..b.list.map(sketch)) }
  else { panic("unknown block " + b.kind) }
}
#let sections(list, columns) = for s in list {
  if s.heading != "" { heading(level: 2, s.heading) }
  for b in s.blocks { render(b, columns) }
}

// Two columns as even as whole sections allow: in their order, or, with data.mix, in any share between left and right.
#let flow(list) = layout(area => {
  let gap = 11pt
  let width = (area.width - gap) / 2
  let heights = list.map(s => measure(block(width: width, sections((s,), 1))).height)
  let total = heights.sum()
  let best = none
  let count = if data.mix { calc.pow(2, list.len() - 1) } else { list.len() }
  for k in range(count) {
    let left = range(list.len()).filter(i => if data.mix { i == 0 or calc.odd(calc.quo(k, calc.pow(2, i - 1))) } else { i <= k })
    let height = left.map(i => heights.at(i)).sum()
    let longer = calc.max(height, total - height)
    if best == none or longer < best.longer { best = (longer: longer, left: left) }
  }
  let rest = range(list.len()).filter(i => not best.left.contains(i))
  grid(columns: (1fr, 1fr), column-gutter: gap,
    sections(best.left.map(i => list.at(i)), 1), sections(rest.map(i => list.at(i)), 1))
})

#heading(level: 1, data.title)
#text(fill: muted, data.subtitle)
#if data.marks.len() > 0 { block(above: 0.6em, below: 0.2em, for mark in data.marks { box(stroke: 0.7pt + accent, radius: 2pt, inset: (x: 4pt, y: 2.5pt), text(fill: accent, weight: "bold", mark)); h(0.6em) }) }
#block(above: 0.7em, below: 0.4em, width: 100%, grid(
  columns: data.head.map(row => if row.value.kind == "blank" or row == data.head.last() { 1fr } else { auto }), column-gutter: 14pt,
  ..data.head.map(row => { text(size: small, fill: muted, row.name); linebreak(); text(weight: "bold", cell(row.value)) })))
#line(length: 100%, stroke: 1.2pt + accent)
#for row in data.rows {
  if row.flow { flow(row.columns.first().sections) } else if row.columns.len() == 1 { sections(row.columns.first().sections, 2) } else {
    grid(columns: row.columns.map(c => c.share * 1fr), column-gutter: 11pt, ..row.columns.map(c => sections(c.sections, 1)))
  }
}
#if data.losses.len() > 0 { block(above: 0.6em, text(size: least, style: "italic", data.lossLead + " " + data.losses.join("; ") + ".")) }
`;

/**
 * The paper in typst. It holds no words of any report: everything said comes in as JSON through `sys.inputs`, so that
 * nothing a person typed is ever read as typst source.
 */
export const reportTemplate = `
#let data = json(bytes(sys.inputs.data))
#let ink = rgb("#26282b")
#let muted = rgb("#5b5f63")
#let line-colour = rgb("#b9b6ac")
#let panel = rgb("#f6f4ee")
#let accent = rgb("#b4541a")

#set document(title: data.title, author: data.authors, date: none, keywords: data.keywords)
#set text(font: "DejaVu Sans", size: 8.6pt, fill: ink, lang: data.language, hyphenate: false)
#set par(leading: 0.62em, spacing: 0.85em, justify: false)
#set page(
  paper: "a4",
  margin: (left: 18mm, right: 18mm, top: 17mm, bottom: 20mm),
  footer: context {
    set text(size: 7pt, fill: muted)
    line(length: 100%, stroke: 0.4pt + line-colour)
    v(-0.4em)
    grid(columns: (1fr, auto), align: (left, right),
      data.footer, [#counter(page).display() / #counter(page).final().first()])
  },
)
#show heading: set block(sticky: true)
#show heading.where(level: 1): it => block(below: 0.5em, text(size: 15pt, it.body))
#show heading.where(level: 2): it => block(above: 1.35em, below: 0.7em, sticky: true, text(size: 12pt, it.body))
#show heading.where(level: 3): it => block(above: 1.25em, below: 0.6em, sticky: true, text(size: 9.6pt, it.body))
#set list(indent: 0.2em, body-indent: 0.5em, spacing: 0.6em)
#set table(stroke: (x, y) => (bottom: if y == 0 { 0.6pt + line-colour } else { 0.3pt + rgb("#e0ddd3") }), inset: (x: 3pt, y: 3.4pt))

#let fact-column(rows, share) = {
  for row in rows {
    block(above: 0.6em, below: 0.6em, breakable: false,
      grid(columns: (share, 1fr), column-gutter: 8pt,
        text(fill: muted, row.name),
        { row.value; if row.note != "" { h(0.6em); text(size: 0.88em, fill: muted, row.note) } }))
  }
}
// short facts stand in two columns, read down one and then the other
#let facts(rows) = block(above: 0.9em, below: 1em, width: 100%, {
  if rows.len() >= 6 and rows.all(row => row.note == "" and row.value.len() < 26 and row.name.len() < 30) {
    let half = calc.ceil(rows.len() / 2)
    grid(columns: (1fr, 1fr), column-gutter: 14pt,
      fact-column(rows.slice(0, half), 52%), fact-column(rows.slice(half), 52%))
  } else { fact-column(rows, 34%) }
})
#let bullet(items) = if items.len() > 0 { list(..items.map(item => [#item])) }
#let cautions(items) = if items.len() > 0 {
  block(width: 100%, stroke: 0.8pt + accent, radius: 2pt, inset: (x: 7pt, y: 4pt), above: 0.5em, below: 0.5em, breakable: false, {
    let many = items.len() > 7
    set text(size: if items.len() > 12 { 6.8pt } else if many { 7.2pt } else { 8.2pt })
    set par(leading: 0.5em)
    set list(spacing: 0.42em)
    text(fill: accent, weight: "bold")[Cautions]
    if many {
      let half = calc.ceil(items.len() / 2)
      grid(columns: (1fr, 1fr), column-gutter: 10pt, bullet(items.slice(0, half)), bullet(items.slice(half)))
    } else { bullet(items) }
  })
}
#let data-table(b) = {
  if b.cautions.len() > 0 { block(sticky: true, width: 100%, cautions(b.cautions)) }
  let cells = b.rows.flatten().map(c => [#c])
  set text(size: 7.6pt)
  set par(leading: 0.5em)
  block(above: 0.9em, below: 0.35em, sticky: true, text(fill: muted, b.caption))
  // a short table is not worth a page break inside
  block(breakable: b.rows.len() > 14, width: 100%, table(
    columns: b.columns.map(c => c.share * 1fr),
    align: b.columns.map(c => if c.align == "right" { right + top } else { left + top }),
    table.header(..b.columns.map(c => text(weight: "bold", fill: muted, c.name))),
    ..cells,
  ))
}
#let picture(b) = block(breakable: false, above: 1em, below: 1em, width: 100%, {
  show figure: set align(left)
  figure(
    image(bytes(b.svg), format: "svg", width: b.width_percent * 1%, alt: b.alt),
    alt: b.alt, caption: none, kind: image, supplement: none, numbering: none, outlined: false,
  )
  v(-0.3em)
  text(size: 7.8pt, fill: muted, b.caption)
})
#let setting(b) = block(width: 100%, stroke: 0.6pt + line-colour, radius: 2pt, inset: 8pt, breakable: false, above: 0.9em, below: 0.9em, {
  text(weight: "bold", b.title)
  facts(b.rows)
  cautions(b.cautions)
})
#let answer(b) = block(width: 100%, fill: panel, stroke: (left: 2.5pt + (if b.evidence in ("none", "declined") { line-colour } else { accent })), inset: (x: 9pt, y: 4.5pt), above: 0.5em, below: 0.5em, breakable: false, {
  heading(level: 3, outlined: false, b.part)
  block(above: 0.3em, below: 0.6em, text(size: 11pt, weight: "bold", b.headline))
  par(b.evidenceWords)
  if b.setting != none { par(text(fill: muted, "Setting: ") + b.setting) }
  if b.facts.len() > 0 {
    grid(columns: (1fr,) * b.facts.len(), column-gutter: 6pt,
      ..b.facts.map(f => { text(size: 7.4pt, fill: muted, f.name); linebreak(); f.value; if f.note != "" { linebreak(); text(size: 7pt, fill: muted, f.note) } }))
  }
  for s in b.sentences { par(s) }
  if b.cautions.len() > 0 {
    par({ text(fill: accent, weight: "bold")[Cautions: ]; b.cautions.join(" ") })
  }
})
#let render(b) = {
  if b.kind == "text" { par(b.words) }
  else if b.kind == "list" { bullet(b.items) }
  else if b.kind == "facts" { facts(b.rows) }
  else if b.kind == "cautions" { cautions(b.items) }
  else if b.kind == "table" { data-table(b) }
  else if b.kind == "figure" { picture(b) }
  else if b.kind == "setting" { setting(b) }
  else if b.kind == "answer" { answer(b) }
  else { panic("unknown block " + b.kind) }
}
#let sections(list) = for s in list {
  heading(level: s.level, s.heading)
  for (i, b) in s.blocks.enumerate() {
    let next = s.blocks.at(i + 1, default: none)
    // a sentence that leads up to a picture, table or setting stays with it
    if b.kind == "text" and next != none and next.kind in ("setting", "table", "figure", "list") { block(sticky: true, render(b)) } else { render(b) }
  }
}

#heading(level: 1, data.title)
#text(size: 8pt, fill: muted, data.line)
#line(length: 100%, stroke: 1.2pt + accent)
#[
  // Closer than the pages that follow, so that the answer and all its cautions stay on one page.
  #set par(leading: 0.55em, spacing: 0.65em)
  #set text(size: 8.2pt)
  #show heading.where(level: 2): it => block(above: 0.9em, below: 0.5em, sticky: true, text(size: 12pt, it.body))
  #sections(data.answer)
]
#pagebreak()
#sections(data.details)
`;

/** One coupon at true size: the picture is as large as it says, nothing on the page may shrink it. */
export const couponTemplate = `
#let data = json(bytes(sys.inputs.data))
#set document(title: data.title, date: none)
#set text(font: "DejaVu Sans", size: 8pt, lang: data.language)
#set page(width: data.page.width * 1mm, height: data.page.height * 1mm, margin: data.page.margin * 1mm)
#heading(level: 1, text(size: 10pt, data.title))
#par(data.line)
#image(bytes(data.svg), format: "svg", width: data.width * 1mm, height: data.height * 1mm, alt: data.alt)
`;

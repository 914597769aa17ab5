namespace Lastoff.Core.Papers;

/// <summary>The looks of a paper in the browser: dark ink on white, one colour for what must not be missed.</summary>
internal static class PaperStyle
{
    public static string Css { get; } = string.Concat(Enumerable.Range(1, 99).Select(percent => $".w{percent}{{width:{percent}%}}")) + "\n" + """
        :root { color-scheme: light; --ink: #1c1a16; --soft: #5a5446; --rule: #d8cfba; --margin: #a8442a; --book: "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", Georgia, "Noto Serif", "DejaVu Serif", serif; }
        * { box-sizing: border-box; }
        html { background: #f1ebdc; color: var(--ink); font: 10.5pt/1.42 system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif; -webkit-text-size-adjust: 100%; }
        body { margin: 0; }
        main { max-width: 190mm; margin: 0 auto; padding: 12mm 7mm 10mm; background: #fff; overflow-wrap: anywhere; }
        p, dl, dd, ul, figure { margin: 0; }
        h1, h2, .machine, .name { font-family: var(--book); line-height: 1.16; margin: 0; font-weight: 600; text-wrap: balance; }
        h1 { font-size: 24pt; letter-spacing: -.01em; }
        .machine { margin-top: 1.4mm; font-size: 13pt; font-weight: 400; color: var(--soft); }
        .for { color: var(--soft); font-size: 9.5pt; margin-bottom: 1.2mm; }
        header { padding-bottom: 4.5mm; border-bottom: .6mm solid var(--ink); }
        section { margin-top: 5mm; }
        h2 { font-size: 13.5pt; margin: 7mm 0 2mm; break-after: avoid; }
        section > * + * { margin-top: 3mm; }
        dl { display: grid; grid-template-columns: minmax(34mm, 19%) 1fr; }
        dt, dd { padding: 1.4mm 0; border-bottom: .2mm solid var(--rule); break-inside: avoid; }
        dt { color: var(--soft); padding-right: 4mm; }
        dd, td, li, section > p, .label p, figcaption { white-space: pre-line; unicode-bidi: plaintext; }
        ul { list-style: none; padding: 0; }
        li { position: relative; padding: 1.2mm 0 1.2mm 5mm; border-bottom: .2mm solid var(--rule); break-inside: avoid; }
        li::before { content: "–"; position: absolute; left: 0; color: var(--soft); }
        li:dir(rtl) { padding: 1.2mm 5mm 1.2mm 0; }
        li:dir(rtl)::before { left: auto; right: 0; }
        table { width: 100%; border-collapse: collapse; table-layout: fixed; }
        caption { text-align: left; font: 600 11pt/1.2 var(--book); padding: 2.5mm 0 1.2mm; }
        th { text-align: left; font-weight: 400; font-size: 9pt; color: var(--soft); padding: .8mm 3mm .8mm 0; border-bottom: .35mm solid var(--ink); vertical-align: bottom; }
        td { vertical-align: top; padding: 1.4mm 3mm 1.4mm 0; border-bottom: .2mm solid var(--rule); }
        th:last-child, td:last-child { padding-right: 0; }
        tr { break-inside: avoid; }
        .figure { text-align: right; unicode-bidi: isolate; font-variant-numeric: tabular-nums; }
        .sum td { border-top: .35mm solid var(--ink); border-bottom: 0; font-weight: 600; }
        .heading th { font: 600 10.5pt/1.2 var(--book); color: var(--ink); padding: 3mm 0 1mm; border-bottom: .2mm solid var(--rule); }
        .heading { break-after: avoid; }
        .struck td { color: var(--soft); text-decoration: line-through; }
        tr:has(+ .mind) td { border-bottom: 0; }
        tr:has(+ .mind) { break-after: avoid; }
        .mind td { padding-top: 0; }
        .notice { margin: 4mm 0; padding: 3mm; border: .6mm solid var(--ink); font-weight: 600; }
        .caution { border-left: 1.4mm solid var(--margin); padding: .6mm 0 .6mm 3mm; break-inside: avoid; }
        .mind .caution { font-size: 9.5pt; }
        header + .caution { margin-top: 4mm; }
        .labels { display: grid; grid-template-columns: 1fr 1fr; }
        .label { display: flex; justify-content: space-between; gap: 3mm; min-height: 40mm; margin: 0 -.1mm -.1mm 0; padding: 5mm; border: .2mm dashed #8d8470; break-inside: avoid; }
        .name { font-size: 16pt; margin-bottom: 1.5mm; }
        svg { flex: none; width: 31mm; height: 31mm; margin: -2mm -2mm 0 0; }
        .pictures { display: grid; grid-template-columns: repeat(3, 1fr); gap: 5mm; }
        figure { break-inside: avoid; font-size: 9pt; color: var(--soft); }
        img, .away { display: block; width: 100%; aspect-ratio: 4 / 3; object-fit: contain; background: #f6f3ea; }
        .away { display: grid; place-items: center; }
        code { font: 8.5pt/1.4 ui-monospace, "DejaVu Sans Mono", monospace; overflow-wrap: anywhere; }
        .consent { margin-top: 8mm; padding-top: 1mm; border-top: .6mm solid var(--ink); display: grid; gap: 3mm; justify-items: start; }
        .consent h2 { margin: 2mm 0 0; }
        .consent input:not([type="checkbox"]) { width: 100%; max-width: 110mm; min-height: 48px; padding: 0 3mm; font: inherit; border: .35mm solid var(--soft); border-radius: 3px; }
        .consent .tick { display: flex; align-items: center; gap: 3mm; min-height: 48px; }
        .consent .tick input { width: 24px; height: 24px; }
        .consent button { min-height: 60px; padding: 0 7mm; font: 600 13pt/1.2 var(--book); color: #fff; background: #123f73; border: 0; border-radius: 3px; cursor: pointer; }
        .consent button:focus-visible, .consent input:focus-visible { outline: 3px solid #123f73; outline-offset: 2px; }
        footer { margin-top: 8mm; padding-top: 2mm; border-top: .2mm solid var(--ink); color: var(--soft); font-size: 9pt; }
        @media (max-width: 150mm) {
          main { padding: 6mm 5mm; }
          dl, .labels { grid-template-columns: 1fr; }
          dt { border: 0; padding-bottom: 0; }
          dd { padding-top: 0; }
          .pictures { grid-template-columns: 1fr 1fr; }
          table { table-layout: auto; }
          /* A column is never narrower than its longest word. */
          th, td { overflow-wrap: break-word; }
          col { width: auto; }
          .wide, .wide tbody, .wide tr, .wide th, .wide td { display: block; }
          .wide colgroup, .wide thead, .wide td:empty { display: none; }
          .wide tr { padding: 1.4mm 0; border-bottom: .2mm solid var(--rule); }
          .wide .heading { padding: 0; border: 0; }
          .wide .sum { border-top: .35mm solid var(--ink); border-bottom: 0; }
          .wide td, .wide .sum td { padding: 0; border: 0; text-align: start; }
          .wide td[data-head]:not(:first-child)::before { content: attr(data-head) ": "; color: var(--soft); font-weight: 400; }
          .wide tr:has(+ .mind) { border-bottom: 0; }
        }
        @page { margin: 15mm 14mm 17mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8.5pt sans-serif; color: #5a5446; } }
        @media print { html { background: #fff; } .consent { display: none; } main { max-width: none; padding: 0; } }
        """;
}

using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Lastoff.Core.Papers;

/// <summary>A paper as one HTML file that needs nothing else: no script, no link, no picture from outside. It prints on A4 and Letter.</summary>
public sealed partial class PaperHtml
{
    /// <summary>So many columns have room beside each other on a phone.</summary>
    private const int MostBeside = 3;

    private readonly StringBuilder _html = new();
    private readonly Paper _paper;

    private PaperHtml(Paper paper) => _paper = paper;

    /// <summary>What a browser has to allow for it: its own style, and pictures that are in the file.</summary>
    public static string ContentSecurityPolicy { get; } = Policy("'none'");

    /// <summary>The same for a page that asks for a yes.</summary>
    public static string ContentSecurityPolicyWithConsent { get; } = Policy("'self'");

    private static string Policy(string forms) =>
        $"default-src 'none'; style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(PaperStyle.Css)))}'; img-src data:; base-uri 'none'; form-action {forms}; frame-ancestors 'none'";

    /// <summary>Well-formed as XML too. Whatever people wrote stands in it as text.</summary>
    /// <param name="consent">Asks for a yes on the page; null where none is wanted.</param>
    /// <param name="notice">What stands above all else; null for nothing.</param>
    public static string Write(Paper paper, ConsentForm? consent = null, string? notice = null) => new PaperHtml(paper).Whole(consent, notice);

    private string Whole(ConsentForm? consent, string? notice)
    {
        _html.Append(CultureInfo.InvariantCulture, $"<!DOCTYPE html>\n<html lang=\"{_paper.Tongue.Language.Code}\"><head><meta charset=\"utf-8\"/><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/><meta name=\"robots\" content=\"noindex\"/>");
        _html.Append(CultureInfo.InvariantCulture, $"<title>{Text(_paper.Title)}: {Text(_paper.Machine)}</title><style>{PaperStyle.Css}</style></head>\n<body><main>");
        _html.Append(CultureInfo.InvariantCulture, $"<header><p class=\"for\">{Text(_paper.For)}</p><h1 dir=\"auto\">{Text(_paper.Title)}</h1><p class=\"machine\" dir=\"auto\">{Text(_paper.Machine)}</p></header>\n");
        if (notice is not null)
        {
            _html.Append(CultureInfo.InvariantCulture, $"<p class=\"notice\" role=\"status\">{Text(_paper.Tongue.Say(notice))}</p>\n");
        }

        if (_paper.Invented is { } invented)
        {
            _html.Append(CultureInfo.InvariantCulture, $"<p class=\"caution\">{Text(invented)}</p>\n");
        }

        foreach (var section in _paper.Sections)
        {
            _html.Append("<section>");
            if (section.Heading.Length > 0)
            {
                _html.Append(CultureInfo.InvariantCulture, $"<h2 dir=\"auto\">{Text(section.Heading)}</h2>");
            }

            foreach (var block in section.Blocks)
            {
                Write(block);
            }

            _html.Append("</section>\n");
        }

        return _html.Append(consent?.Html(_paper.Tongue)).Append(CultureInfo.InvariantCulture, $"<footer dir=\"auto\">{Text(_paper.Basis)}</footer></main></body></html>\n").ToString();
    }

    private void Write(Block block)
    {
        switch (block)
        {
            case Facts facts:
                Each("<dl>", facts.Lines, fact => $"<dt dir=\"auto\">{Text(fact.Name)}</dt><dd dir=\"auto\">{Text(fact.Value.Text)}</dd>", "</dl>");
                break;
            case Table { Rows.Count: > 0 } table:
                Write(table);
                break;
            case Paragraph paragraph:
                _html.Append(CultureInfo.InvariantCulture, $"<p dir=\"auto\">{Text(paragraph.Text.Text)}</p>");
                break;
            case Caution caution:
                _html.Append(CultureInfo.InvariantCulture, $"<p class=\"caution\" dir=\"auto\">{Text(caution.Text.Text)}</p>");
                break;
            case Bullets bullets:
                Each("<ul>", bullets.Items, item => $"<li dir=\"auto\">{Text(item.Text)}</li>", "</ul>");
                break;
            case Labels labels:
                Each("<div class=\"labels\">", labels.Items, Label, "</div>");
                break;
            case Pictures pictures:
                Each("<div class=\"pictures\">", pictures.Items, Picture, "</div>");
                break;
            case Seal seal:
                Each($"<table><colgroup><col class=\"w18\"/><col class=\"w10\"/><col class=\"w72\"/></colgroup><thead><tr><th scope=\"col\">{Own("Device")}</th><th scope=\"col\" class=\"figure\">{Own("Entries")}</th><th scope=\"col\">{Own("Last entry, and the SHA-256 of its line")}</th></tr></thead><tbody>", seal.Ends,
                    end => $"<tr><td dir=\"auto\">{Text(end.Device)}</td><td class=\"figure\">{end.Entries.ToString(CultureInfo.InvariantCulture)}</td><td><code>{end.Last}</code><br/><code>{Text(end.Hash)}</code></td></tr>", "</tbody></table>");
                _html.Append(CultureInfo.InvariantCulture, $"<p>{Text(seal.HowToCheck)}</p>");
                break;
        }
    }

    private void Write(Table table)
    {
        // Where columns would come out too narrow for their words, each cell has a line to itself, and says what it is.
        var isWide = table.Columns.Count > MostBeside;
        _html.Append(isWide ? "<table class=\"wide\">" : "<table>");
        if (table.Caption.Length > 0)
        {
            _html.Append(CultureInfo.InvariantCulture, $"<caption dir=\"auto\">{Text(table.Caption)}</caption>");
        }

        Columns([.. table.Columns.Select(column => column.Share)]);
        _html.Append("<thead><tr>");
        foreach (var column in table.Columns)
        {
            _html.Append(CultureInfo.InvariantCulture, $"<th scope=\"col\"{(column.IsFigure ? " class=\"figure\"" : "")}>{Text(column.Head)}</th>");
        }

        _html.Append("</tr></thead><tbody>");
        foreach (var row in table.Rows)
        {
            if (row.Kind == RowKind.Heading)
            {
                _html.Append(CultureInfo.InvariantCulture, $"<tr class=\"heading\"><th scope=\"colgroup\" colspan=\"{table.Columns.Count}\" dir=\"auto\">{Text(row.Cells[0].Text)}</th></tr>\n");
                continue;
            }

            _html.Append(row.Kind switch { RowKind.Struck => "<tr class=\"struck\">", RowKind.Sum => "<tr class=\"sum\">", _ => "<tr>" });
            foreach (var (cell, column) in row.Cells.Zip(table.Columns))
            {
                _html.Append(CultureInfo.InvariantCulture, $"<td dir=\"auto\"{(column.IsFigure ? " class=\"figure\"" : "")}{(isWide && cell.Text.Length > 0 ? $" data-head=\"{Text(column.Head)}\"" : "")}>{Cell(cell.Text)}</td>");
            }

            _html.Append("</tr>\n");
            if (row.Caution is { } caution)
            {
                _html.Append(CultureInfo.InvariantCulture, $"<tr class=\"mind\"><td colspan=\"{table.Columns.Count}\"><p class=\"caution\" dir=\"auto\">{Text(caution)}</p></td></tr>\n");
            }
        }

        _html.Append("</tbody></table>");
    }

    /// <summary>Widths are classes, since a page that may run nothing may not style an element by itself either.</summary>
    private void Columns(IReadOnlyList<double> shares)
    {
        _html.Append("<colgroup>");
        foreach (var share in shares)
        {
            _html.Append(CultureInfo.InvariantCulture, $"<col class=\"w{Math.Clamp((int)Math.Round(100 * share / shares.Sum()), 1, 99)}\"/>");
        }

        _html.Append("</colgroup>");
    }

    private string Label(Label label)
    {
        var html = new StringBuilder("<div class=\"label\"><div>");
        html.Append(CultureInfo.InvariantCulture, $"<p class=\"name\" dir=\"auto\">{Text(label.Name)}</p>");
        foreach (var line in label.Lines)
        {
            html.Append(CultureInfo.InvariantCulture, $"<p dir=\"auto\">{Text(line.Text)}</p>");
        }

        return html.Append("</div>").Append(label.Code is { } code ? Svg(code) : "").Append("</div>\n").ToString();
    }

    private string Picture(Picture picture) =>
        $"<figure>{(picture.Jpeg is { } jpeg ? $"<img alt=\"\" src=\"data:image/jpeg;base64,{Convert.ToBase64String(jpeg)}\"/>" : $"<div class=\"away\">{Own("The picture is not here.")}</div>")}"
        + $"<figcaption dir=\"auto\">{Text(picture.Caption.Text)}<br/><code>{Text(picture.Sha256[..Math.Min(16, picture.Sha256.Length)])}</code></figcaption></figure>\n";

    /// <summary>With the four modules of quiet around it that a reader needs (ISO/IEC 18004, section 6.3.8; from memory).</summary>
    private string Svg(QrCode code)
    {
        const int quiet = 4;
        var (rows, columns) = (code.Dark.GetLength(0), code.Dark.GetLength(1));
        var path = new StringBuilder();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var run = 0;
                while (column + run < columns && code.Dark[row, column + run])
                {
                    run++;
                }

                if (run > 0)
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{column + quiet} {row + quiet}h{run}v1h-{run}z");
                    column += run;
                }
            }
        }

        return $"<svg role=\"img\" aria-label=\"{Own("QR code")}\" viewBox=\"0 0 {columns + 2 * quiet} {rows + 2 * quiet}\" shape-rendering=\"crispEdges\"><path d=\"{path}\"/></svg>";
    }

    private void Each<T>(string open, IReadOnlyList<T> items, Func<T, string> each, string close)
    {
        if (items.Count > 0)
        {
            _html.Append(open);
            foreach (var item in items)
            {
                _html.Append(each(item));
            }

            _html.Append(close);
        }
    }

    private string Own(string english) => Text(_paper.Tongue.Say(english));

    private static string Text(string text) => WebUtility.HtmlEncode(Unbroken.Of(ShownText.Of(text)));

    /// <summary>No word of a table is broken but one that is longer than any column.</summary>
    private static string Cell(string text) => string.Join("<wbr/>", LongestWord().Split(Unbroken.Of(ShownText.Of(text))).Where(part => part.Length > 0).Select(WebUtility.HtmlEncode));

    [GeneratedRegex(@"(\S{24})(?=\S)(?![\uDC00-\uDFFF])")]
    private static partial Regex LongestWord();
}

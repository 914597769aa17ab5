using System.Globalization;
using Lastoff.Core;
using Lastoff.Core.Papers;
using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>A paper as PDF, set in the fonts that come with the program.</summary>
public sealed class PaperPdf
{
    private const float ColumnGap = 8;
    private const float BulletIndent = 12;
    private const float BarIndent = 10;

    /// <summary>A table that takes no more than this part of a sheet is not broken.</summary>
    private const float Short = 0.3f;

    private readonly Paper _paper;
    private readonly Sheets _sheets;
    private bool _hasUnknown;

    private PaperPdf(Paper paper, SheetSize size)
    {
        _paper = paper;
        var width = size.Width - 2 * Sheets.Side;
        var running = SetText.OnOneLine($"{paper.Title} · {paper.Machine}", PaperInk.Small, width);
        _sheets = new Sheets(size, canvas =>
        {
            running.Draw(canvas, Sheets.Side, Sheets.Side - 6, width, false, 0, 1);
            PaperInk.Line(canvas, Sheets.Side, Sheets.Side + 8, width, 0.5f, PaperInk.Ink);
        }, 26);
    }

    /// <summary>The file, or the one sentence that says why there is none: what draws it is not made for every sort of machine.</summary>
    public static Answer<byte[]> Write(Paper paper, SheetSize size)
    {
        try
        {
            return Drawn(paper, size);
        }
        catch (Exception e) when (e is TypeInitializationException or DllNotFoundException)
        {
            return Answer.None<byte[]>("PDF cannot be drawn on this sort of machine; take the page (html) and print that.");
        }
    }

    private static byte[] Drawn(Paper paper, SheetSize size)
    {
        var pdf = new PaperPdf(paper, size);
        pdf.SetAll();
        using var file = new MemoryStream();
        using (var document = SKDocument.CreatePdf(file, new SKDocumentPdfMetadata { Title = $"{paper.Title}: {paper.Machine}", Subject = paper.For, Creator = "Lastoff", Producer = "Lastoff", RasterDpi = 300, EncodingQuality = 90 }))
        {
            pdf._sheets.Write(document, pdf.Foot);
            document.Close();
        }

        return file.ToArray();
    }

    private void SetAll()
    {
        SetHead();
        if (_paper.Invented is { } invented)
        {
            _sheets.Skip(8);
            SetCaution(invented, PaperInk.Body);
        }

        foreach (var section in _paper.Sections)
        {
            _sheets.Skip(section.Heading.Length > 0 ? 16 : 10);
            if (section.Heading.Length > 0)
            {
                // A heading stays with what begins under it.
                _sheets.NextUnless(80);
                SetPlain(section.Heading, PaperInk.Heading);
                _sheets.Skip(2);
            }

            foreach (var (number, block) in section.Blocks.Index())
            {
                if (number > 0)
                {
                    _sheets.Skip(6);
                }

                Set(block);
            }
        }

        if (_hasUnknown)
        {
            _sheets.Skip(10);
            SetPlain(_paper.Tongue.Say($"{LetterCutter.Unknown} stands for a letter that the fonts of this print do not have; the paper in the browser shows it."), PaperInk.Small);
        }
    }

    private void SetHead()
    {
        SetPlain(_paper.For, PaperInk.Quiet);
        _sheets.Skip(2);
        SetPlain(_paper.Title, PaperInk.Title);
        _sheets.Skip(3);
        SetPlain(_paper.Machine, PaperInk.Machine);
        _sheets.Skip(8);
        _sheets.Draw(1.6f, (canvas, y) => PaperInk.Line(canvas, Sheets.Side, y, _sheets.Width, 1.6f, PaperInk.Ink));
    }

    private void Set(Block block)
    {
        switch (block)
        {
            case Facts facts:
                SetFacts(facts);
                break;
            case Table table:
                SetTable(table);
                break;
            case Paragraph paragraph:
                SetPlain(paragraph.Text.Text, PaperInk.Body);
                break;
            case Caution caution:
                SetCaution(caution.Text.Text, PaperInk.Body);
                break;
            case Bullets bullets:
                SetBullets(bullets);
                break;
            case Labels labels:
                new LabelSheet(_sheets, Text).Set(labels);
                break;
            case Pictures pictures:
                new PictureSheet(_sheets, Text, _paper.Tongue).Set(pictures);
                break;
            case Seal seal:
                SetSeal(seal);
                break;
        }
    }

    private SetText Text(string text, TextStyle style, float width)
    {
        var set = SetText.Of(text, style, width);
        _hasUnknown |= set.HasUnknown;
        return set;
    }

    private void SetPlain(string text, TextStyle style)
    {
        var table = new SheetTable(_sheets, [new SetColumn(Sheets.Side, _sheets.Width, false)]) { Rule = 0 };
        table.Row([Text(text, style, _sheets.Width)], style.Leading, padTop: 0);
    }

    private void SetCaution(string text, TextStyle style) =>
        new SheetTable(_sheets, [new SetColumn(Sheets.Side + BarIndent, _sheets.Width - BarIndent, false)]) { Rule = 0 }
            .Row([Text(text, style, _sheets.Width - BarIndent)], style.Leading, bar: true);

    private void SetFacts(Facts facts)
    {
        var names = Math.Min(110, _sheets.Width * 0.2f);
        var columns = new[] { new SetColumn(Sheets.Side, names, false), new SetColumn(Sheets.Side + names + ColumnGap, _sheets.Width - names - ColumnGap, false) };
        var table = new SheetTable(_sheets, columns);
        foreach (var fact in facts.Lines)
        {
            table.Row([Text(fact.Name, PaperInk.Quiet, columns[0].Width), Text(fact.Value.Text, PaperInk.Body, columns[1].Width)], PaperInk.Body.Leading);
        }
    }

    private void SetBullets(Bullets bullets)
    {
        var columns = new[] { new SetColumn(Sheets.Side, BulletIndent, false), new SetColumn(Sheets.Side + BulletIndent, _sheets.Width - BulletIndent, false) };
        var table = new SheetTable(_sheets, columns);
        foreach (var item in bullets.Items)
        {
            table.Row([Text("–", PaperInk.Quiet, BulletIndent), Text(item.Text, PaperInk.Body, columns[1].Width)], PaperInk.Body.Leading);
        }
    }

    private void SetTable(Table table)
    {
        if (table.Rows.Count == 0)
        {
            return;
        }

        var columns = Columns(table.Columns);
        var head = table.Columns.Zip(columns, (column, set) => Text(column.Head, PaperInk.Small, set.Width)).ToList();
        var caption = table.Caption.Length > 0 ? Text(table.Caption, PaperInk.Caption, _sheets.Width) : null;
        void Head()
        {
            if (caption is not null)
            {
                new SheetTable(_sheets, [new SetColumn(Sheets.Side, _sheets.Width, false)]) { Rule = 0 }.Row([caption], PaperInk.Caption.Leading);
            }

            new SheetTable(_sheets, columns) { Rule = 0.9f, RuleInk = PaperInk.Ink }.Row(head, PaperInk.Small.Leading, padTop: 0);
        }

        List<(Row Row, List<SetText> Cells, TextStyle Style, SetText? Mind)> rows = [.. table.Rows.Select(row => SetRow(row, columns))];
        var whole = rows.Sum(row => SheetTable.Height(row.Cells, row.Style.Leading) + (row.Mind?.Height ?? 0));
        // A sum alone on the next sheet says little: what is short stays together.
        _sheets.NextUnless((caption?.Height ?? 0) + (whole < _sheets.Whole * Short ? whole + 30 : 60));
        Head();
        var plain = new SheetTable(_sheets, columns) { Head = Head };
        var heading = new SheetTable(_sheets, [new SetColumn(Sheets.Side, _sheets.Width, false)]) { Head = Head };
        var minded = new SheetTable(_sheets, [new SetColumn(Sheets.Side + BarIndent, _sheets.Width - BarIndent, false)]) { Head = Head };
        foreach (var (row, cells, style, mind) in rows)
        {
            if (row.Kind == RowKind.Heading)
            {
                heading.Row(cells, style.Leading, with: 36, padTop: 8);
                continue;
            }

            plain.Row(cells, style.Leading, mind is null ? 0 : mind.Height + 8, rules: mind is null);
            if (mind is not null)
            {
                minded.Row([mind], PaperInk.Mind.Leading, bar: true, padTop: 0);
            }
        }
    }

    private (Row Row, List<SetText> Cells, TextStyle Style, SetText? Mind) SetRow(Row row, IReadOnlyList<SetColumn> columns)
    {
        var style = row.Kind switch
        {
            RowKind.Struck => PaperInk.Struck,
            RowKind.Sum => PaperInk.Strong,
            RowKind.Heading => PaperInk.Caption,
            _ => PaperInk.Body,
        };
        return (
            row,
            row.Kind == RowKind.Heading ? [Text(row.Cells[0].Text, style, _sheets.Width)] : [.. row.Cells.Zip(columns, (cell, column) => Text(cell.Text, style, column.Width))],
            style,
            row.Caution is { } caution ? Text(caution, PaperInk.Mind, _sheets.Width - BarIndent) : null);
    }

    private void SetSeal(Seal seal)
    {
        var columns = Columns([new Column("Device", 3), new Column("Entries", 1.6, true), new Column("", 11)]);
        var head = new[] { "Device", "Entries", "Last entry, and the SHA-256 of its line" };
        var table = new SheetTable(_sheets, columns) { Rule = 0.9f, RuleInk = PaperInk.Ink };
        table.Row([.. head.Zip(columns, (text, column) => Text(_paper.Tongue.Say(text), PaperInk.Small, column.Width))], PaperInk.Small.Leading, padTop: 0);
        var rows = new SheetTable(_sheets, columns);
        foreach (var end in seal.Ends)
        {
            rows.Row(
                [Text(end.Device, PaperInk.Body, columns[0].Width), Text(end.Entries.ToString(CultureInfo.InvariantCulture), PaperInk.Body, columns[1].Width), Text($"{end.Last}\n{end.Hash}", PaperInk.Body, columns[2].Width)],
                PaperInk.Body.Leading);
        }

        _sheets.Skip(4);
        SetPlain(seal.HowToCheck, PaperInk.Small);
    }

    private SetColumn[] Columns(IReadOnlyList<Column> columns)
    {
        var shares = columns.Sum(column => column.Share);
        var room = _sheets.Width - ColumnGap * (columns.Count - 1);
        var x = Sheets.Side;
        return [.. columns.Select(column =>
        {
            var width = (float)(room * column.Share / shares);
            var set = new SetColumn(x, width, column.IsFigure);
            x += width + ColumnGap;
            return set;
        })];
    }

    private void Foot(SKCanvas canvas, int number)
    {
        const float ForTheNumber = 80;
        PaperInk.Line(canvas, Sheets.Side, _sheets.Foot - 4, _sheets.Width, 0.5f, PaperInk.Ink);
        SetText.OnOneLine(_paper.Basis, PaperInk.Small, _sheets.Width - ForTheNumber).Draw(canvas, Sheets.Side, _sheets.Foot, _sheets.Width - ForTheNumber, false, 0, 1);
        SetText.OnOneLine(_paper.Tongue.Say($"sheet {number} of {_sheets.Count}"), PaperInk.Small, ForTheNumber).Draw(canvas, Sheets.Side + _sheets.Width - ForTheNumber, _sheets.Foot, ForTheNumber, true, 0, 1);
    }
}

using Lastoff.Core.Languages;

namespace Lastoff.Core.Papers;

/// <summary>Says every text of a paper in another language, piece by piece.</summary>
internal sealed class PaperInTongue(Tongue tongue)
{
    public Paper Of(Paper paper) => paper with
    {
        Title = tongue.Say(paper.Title),
        For = tongue.Say(paper.For),
        Machine = paper.Machine == JobHead.Nameless ? tongue.Say(paper.Machine) : paper.Machine,
        Basis = tongue.Say(paper.Basis),
        Invented = paper.Invented is { } invented ? tongue.Say(invented) : null,
        Sections = [.. paper.Sections.Select(section => new Section(tongue.Say(section.Heading), [.. section.Blocks.Select(Of)]))],
        Tongue = tongue,
    };

    private Block Of(Block block) => block switch
    {
        Facts facts => new Facts([.. facts.Lines.Select(fact => new Fact(tongue.Say(fact.Name), Of(fact.Value)))]),
        Table table => new Table(tongue.Say(table.Caption), [.. table.Columns.Select(column => column with { Head = tongue.Say(column.Head) })], [.. table.Rows.Select(row => Of(row, table.Columns))]),
        Paragraph paragraph => new Paragraph(Of(paragraph.Text)),
        Caution caution => new Caution(Of(caution.Text)),
        Bullets bullets => new Bullets([.. bullets.Items.Select(Of)]),
        Labels labels => new Labels([.. labels.Items.Select(label => label with { Name = tongue.Say(label.Name), Lines = [.. label.Lines.Select(Of)] })]),
        Pictures pictures => new Pictures([.. pictures.Items.Select(picture => picture with { Caption = Of(picture.Caption) })]),
        Seal seal => seal with { HowToCheck = tongue.Say(seal.HowToCheck) },
        _ => block,
    };

    private Row Of(Row row, IReadOnlyList<Column> columns) => row with
    {
        Cells = [.. row.Cells.Index().Select(cell => columns[cell.Index].IsFigure ? cell.Item with { Text = tongue.SayFigure(cell.Item.Text) } : Of(cell.Item))],
        Caution = row.Caution is { } caution ? tongue.Say(caution) : null,
    };

    private Said Of(Said said) => said.IsOwn ? said : said with { Text = tongue.SayLines(said.Text) };
}

using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>Writes a map as a hand might: block and flow style, quotes, comments, blank lines, short and long forms, either line end, mixed at random.</summary>
internal sealed class MapAsYaml(Choices choices)
{
    private readonly List<string> _lines = [];
    private int _comments;

    public static string Write(Map map, Choices choices) => new MapAsYaml(choices).Text(map);

    private string Text(Map map)
    {
        _lines.AddRange(["# A random map", "format: 1", $"name: {map.Name}", $"title: '{map.Title}' {Comment()}", $"invented: {(map.Invented ? "true" : "false")}"]);
        _lines.Add($"set_up_min: {{tool: {Number(map.SetUp.Tool)}, position: {Number(map.SetUp.Position)}, lift: {Number(map.SetUp.Lift)}}}");
        Section("supplies", map.Supplies.Select(s => Fields(
            ("id", s.Id), ("name", Quoted(s.Name)), ("kind", Words<SupplyKind>.Of(s.Kind)), ("at", Words<Position>.Of(s.At)), ("tool", Tool(s.Tool)), ("safe_min", Number(s.SafeMinutes)),
            ("runs_min", Number(s.RunsMinutes)), ("restore_min", Number(s.RestoreMinutes)), ("needs", Names(s.Needs)), ("reach", Reach(s.Reach)))));
        Section("parts", map.Parts.Select(p => Fields(
            ("id", p.Id), ("name", Quoted(p.Name)), ("at", Words<Position>.Of(p.At)), ("tool", Tool(p.Tool)), ("off_min", Number(p.OffMinutes)), ("on_min", Number(p.OnMinutes)),
            ("reach", Reach(p.Reach)), ("aside", p.Aside is { } aside ? $"{{leaves: [{string.Join(", ", aside.Leaves)}], aside_min: {Number(aside.AsideMinutes)}, home_min: {Number(aside.HomeMinutes)}}}" : ""),
            ("rides_on", p.RidesOn ?? ""))));
        Section("joints", map.Joints.Select(j => Fields(
            ("id", j.Id), ("name", Quoted(j.Name)), ("kind", Words<JointKind>.Of(j.Kind)), ("count", $"{j.Count}"), ("holds", Names(j.Holds)), ("captive", Flag(j.Captive)), ("one_time", Flag(j.OneTime)),
            ("clean", Flag(j.Clean)), ("at", Words<Position>.Of(j.At)), ("tool", Tool(j.Tool)), ("torque", "20 N·m"), ("tighten", Tighten(j.Tighten)), ("undo_min", Number(j.UndoMinutes)),
            ("make_min", Number(j.MakeMinutes)), ("cures_min", Number(j.CuresMinutes)), ("needs", Names(j.Needs)), ("reach", Reach(j.Reach)), ("risk", j.Risk is { } risk ? Risk(risk) : ""))));
        Section("openings", map.Openings.Select(o => Fields(("id", o.Id), ("name", o.Name), ("on", o.On), ("cover", o.Cover), ("cover_min", Number(o.CoverMinutes)))));
        Section("renewals", map.Renewals.Select(r => Fields(("id", r.Id), ("name", r.Name), ("kind", Words<RenewalKind>.Of(r.Kind)), ("for", r.For), ("count", Number(r.Count)))));
        Section("proofs", map.Proofs.Select(p => Fields(("id", p.Id), ("name", p.Name), ("kind", Words<ProofKind>.Of(p.Kind)), ("for", p.For), ("minutes", Number(p.Minutes)))));
        return string.Join(choices.OneIn(3) ? "\r\n" : "\n", _lines) + (choices.OneIn(4) ? "" : "\n");
    }

    private static List<(string Key, string Value)> Fields(params (string Key, string Value)[] fields) => [.. fields.Where(field => field.Value.Length > 0)];

    private void Section(string heading, IEnumerable<List<(string Key, string Value)>> items)
    {
        if (!items.Any())
        {
            return;
        }

        Between();
        _lines.Add($"{heading}: {Comment()}".TrimEnd());
        var indent = new string(' ', choices.Of([2, 0, 4]));
        foreach (var fields in items)
        {
            Between();
            if (choices.OneIn(2))
            {
                _lines.Add($"{indent}- {{{string.Join(", ", fields.Select(f => $"{f.Key}: {f.Value}"))}}} {Comment()}".TrimEnd());
            }
            else
            {
                Block(indent, fields);
            }
        }
    }

    private void Block(string indent, List<(string Key, string Value)> fields)
    {
        foreach (var (i, (key, value)) in fields.Index())
        {
            if (i > 0)
            {
                Between();
            }

            var start = $"{indent}{(i == 0 ? "-" : " ")} {key}:";
            if (value.StartsWith('[') && value.Length > 2 && !value.Contains('{') && choices.OneIn(2))
            {
                _lines.Add($"{start} {Comment()}".TrimEnd());
                _lines.AddRange(value[1..^1].Split(", ").Select(name => $"{indent}    - {name} {Comment()}".TrimEnd()));
            }
            else
            {
                _lines.Add($"{start} {value} {Comment()}".TrimEnd());
            }
        }
    }

    private void Between()
    {
        if (choices.OneIn(8))
        {
            _lines.Add(choices.OneIn(2) ? "" : $"      # before {++_comments}: {{not, a: field}}");
        }
    }

    private string Comment() => choices.OneIn(6) ? $"# note {++_comments}, 'and' more" : "";

    private string Quoted(string text) => choices.Next(4) switch { 0 => $"'{text}'", 1 => $"\"{text}\"", _ => text };

    private static string Tool(Tool tool) => tool.IsHand ? "" : tool.Drive is { } drive ? $"{{name: {tool.Name}, drive: {drive}}}" : tool.Name;

    private static string Flag(bool flag) => flag ? "true" : "";

    private static string Number(double number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Names(IReadOnlyList<string> names) => names.Count == 0 ? "" : $"[{string.Join(", ", names)}]";

    private string Reach(Reach reach)
    {
        if (reach.Off.Count + reach.Either.Count == 0 && choices.OneIn(2))
        {
            return Names(reach.Clear);
        }

        var ways = reach.Either.Select(way => Braces(
            ("clear", Names(way.Clear)), ("off", Names(way.Off)), ("at", way.At is { } at ? Words<Position>.Of(at) : ""), ("with", way.With is { } with ? with.IsHand ? "hand" : Tool(with) : ""),
            ("times", Number(way.Times)), ("risk", way.Risk is { } risk ? Risk(risk) : "")));
        var fields = Braces(("clear", Names(reach.Clear)), ("off", Names(reach.Off)), ("either", reach.Either.Count == 0 ? "" : $"[{string.Join(", ", ways)}]"));
        return fields == "{}" ? "" : fields;
    }

    private static string Risk(Risk risk) => Braces(("chance", Number(risk.Chance)), ("minutes", Number(risk.Minutes)), ("what", risk.What));

    private static string Tighten(Tightness? tighten) => tighten is null ? "" : Braces(("passes", $"[{string.Join(", ", tighten.Passes.Select(Pass))}]"));

    private static string Pass(Pass pass) => pass.Kind switch
    {
        PassKind.Snug => "snug",
        PassKind.OnceRound => "round",
        PassKind.Angle => "90 deg",
        _ => $"{Number(Math.Round(100 * pass.Share ?? 100))} %",
    };

    private static string Braces(params (string Key, string Value)[] fields) => $"{{{string.Join(", ", Fields(fields).Select(f => $"{f.Key}: {f.Value}"))}}}";
}

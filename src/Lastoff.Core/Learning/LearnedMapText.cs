using System.Globalization;
using System.Text;
using Lastoff.Core.Estimating;
using Lastoff.Core.Joints;
using Lastoff.Core.Languages;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Learning;

/// <summary>Writes what was learned as a map file.</summary>
/// <param name="tongue">For the names of what nobody recorded; all other names are as they were told.</param>
internal sealed class LearnedMapText(string name, string title, Sightings seen, LearnedOrder order, Tongue tongue)
{
    /// <summary>What it takes to free a part of what nobody recorded, because the part was only laid aside. Set down, no source.</summary>
    private const double UnseenMinutes = 10;

    private readonly StringBuilder _text = new();
    private readonly Identifiers _ids = new();
    private readonly List<Wait> _waits = [];
    private readonly IReadOnlyList<DrainedFluid> _drained = DrainedFluid.Of(seen);
    private readonly ILookup<string, string> _heldBy = HeldBy(seen, order);

    public IReadOnlyList<Wait> Waits => _waits;

    public string Write()
    {
        _text.AppendLine("# Learned from recorded strips. What stands in doubt beside a wait may be chance; take it out if it was never in the way.");
        _text.AppendLine("format: 1").AppendLine($"name: {name}").AppendLine($"title: {Quoted(title)}").AppendLine("learned: true");
        List<string> lessons = [.. seen.Lessons, .. seen.Wanted.Select(wanted => tongue.Say($"New the last time, and nobody said what for: {wanted}."))];
        if (lessons.Count > 0)
        {
            _text.AppendLine("lessons:");
            lessons.ForEach(lesson => _text.AppendLine($"  - {Quoted(lesson)}"));
        }

        Section("supplies", seen.Named(Sort.Supply), Supply);
        Section("parts", [.. seen.Named(Sort.Part), .. Unheld], Part);
        Section("joints", [.. seen.Named(Sort.Joint), .. OnlyAside], Joint);
        Openings();
        Renewals();
        Section("proofs", _drained.Select(fluid => fluid.Name), fluid => _text.AppendLine(
            $"  - {{id: {_ids.Of(Sort.Proof, $"look {fluid}")}, name: {Quoted(tongue.Say($"No leak: {fluid}"))}, kind: leak_look, for: {_ids.Of(Sort.Supply, fluid)}, minutes: {Number(TradeMinutes.LeakLook)}}}"));
        return _text.ToString();
    }

    /// <summary>The joints after which nothing ever came off: they must hold something that nobody took away.</summary>
    private IEnumerable<string> Unheld => seen.Named(Sort.Joint).Where(joint => !Holds(joint).Any()).Select(BehindOf);

    private IEnumerable<string> OnlyAside =>
        seen.Named(Sort.Part).Where(part => seen.WasLaidAside(part) && !seen.Events.Contains(new Event(Happening.Off, part))).Select(StillHolds);

    private static string BehindOf(string joint) => $"What “{joint}” holds, not recorded";

    private static string StillHolds(string part) => $"What still holds “{part}” aside, not recorded";

    private static ILookup<string, string> HeldBy(Sightings seen, LearnedOrder order) =>
        (from what in seen.Events
         where what.What is Happening.Clear or Happening.Off
         from joint in order.Of(what).SelectMany(way => way.After).Where(e => e.What == Happening.Undone)
         select (Joint: joint.Name, Part: what.Name)).Distinct().ToLookup(held => held.Joint, held => held.Part);

    private IEnumerable<string> Holds(string joint) => _heldBy[joint];

    private void Section(string heading, IEnumerable<string> names, Action<string> write)
    {
        List<string> all = [.. names];
        if (all.Count > 0)
        {
            _text.AppendLine().AppendLine($"{heading}:");
            all.ForEach(write);
        }
    }

    private void Supply(string supply)
    {
        var removals = seen.Of(Sort.Supply, supply);
        Start(Sort.Supply, supply);
        Line("kind", Words<SupplyKind>.Of(removals[0].Removal.Supply));
        Where(removals[0].Removal);
        List<List<Removal>> plugs = [.. removals.SelectMany(r => r.Removal.LetOutBy).GroupBy(plug => plug.Name).Select(same => same.ToList())];
        var trade = TradeMinutes.Of(removals[0].Removal.Supply);
        Minutes("safe_min", "restore_min", [.. removals.Select(r => r.Removal)],
            (trade.Safe + plugs.Sum(plug => TradeMinutes.Undo(plug[0].Joint, plug[0].Count)), trade.Restore + plugs.Sum(plug => TradeMinutes.Make(plug[0].Joint, plug[0].Count))));
        if (_drained.FirstOrDefault(fluid => fluid.Name == supply) is { } drained)
        {
            Line("make_safe", Quoted(tongue.Say(plugs.Count > 0 ? $"Let it out by “{string.Join(", ", plugs.Select(plug => plug[0].Name))}”. Catch it and measure what comes out." : $"Catch it and measure what comes out.")));
            Line("restore", Quoted(plugs.Count == 0 ? tongue.Say("Close first what holds it in.") : string.Join(" ", plugs.Select(plug => tongue.Say(
                TorqueOf(plug) is { } torque ? $"Close first what holds it in: “{plug[0].Name}”, to {torque}." : $"Close first what holds it in: “{plug[0].Name}”, as tight as the maker says.")))));
            Line("amount", drained.Litres is { } litres ? $"{Number(litres)} L" : null, amount => amount);
        }

        Words([.. removals.Select(r => r.Removal)]);
        var ways = order.Of(new Event(Happening.Safe, supply));
        Needs(new Event(Happening.Safe, supply), ways);
        Reach(new Event(Happening.Safe, supply), ways);
    }

    /// <summary>The figure that was said or done up, where all recordings agree.</summary>
    private static string? TorqueOf(IEnumerable<Removal> removals) => removals.Select(r => r.Torque).OfType<Torque>().Distinct().ToList() is [var torque] ? $"{Number(torque.NewtonMetres)} N·m" : null;

    private void Part(string part)
    {
        var clear = new Event(Happening.Clear, part);
        if (!seen.Events.Contains(clear))
        {
            Start(Sort.Part, part, tongue.Say(part));
            Line("caution", Quoted(tongue.Say("No recording says what this is: look, and correct the map.")));
            return;
        }

        Start(Sort.Part, part);
        List<Removal> removals = [.. seen.Of(Sort.Part, part).Select(r => r.Removal)];
        Where(removals[0] with { Tool = removals.Find(r => !r.Tool.IsHand)?.Tool ?? Tool.Hand });
        Minutes("off_min", "on_min", [.. removals.Where(r => r.Kind == OperationKind.Off)], (TradeMinutes.PartOff, TradeMinutes.PartOn));
        Words(removals);
        // Of what its joints do not wait for.
        Needs(clear, order.Of(clear));
        Reach(clear, order.Of(clear));
        if (seen.CarrierOf(part) is { } carrier)
        {
            Line("rides_on", _ids.Of(Sort.Part, carrier));
        }

        if (seen.WasLaidAside(part))
        {
            var off = new Event(Happening.Off, part);
            List<string> leaves = seen.Events.Contains(off)
                ? [.. order.Of(off)[0].After.Where(e => e.What == Happening.Undone).Select(e => _ids.Of(Sort.Joint, e.Name))]
                : [_ids.Of(Sort.Joint, StillHolds(part))];
            Line("aside", $"{{leaves: [{string.Join(", ", leaves)}]{Timed(removals.Where(r => r.Kind == OperationKind.Aside).Select(r => r.Minutes)) switch { { } m => $", aside_min: {m}", null => "" }}}}");
        }
    }

    private void Joint(string joint)
    {
        var undone = new Event(Happening.Undone, joint);
        if (!seen.Events.Contains(undone))
        {
            Start(Sort.Joint, joint, tongue.Say(joint));
            Line("kind", Words<JointKind>.Of(JointKind.Tie));
            Line("holds", $"[{_ids.Of(Sort.Part, seen.Named(Sort.Part).First(part => StillHolds(part) == joint))}]");
            Line("undo_min", Number(UnseenMinutes));
            return;
        }

        Start(Sort.Joint, joint);
        List<Removal> removals = [.. seen.Of(Sort.Joint, joint).Select(r => r.Removal)];
        var held = Holds(joint).DefaultIfEmpty(BehindOf(joint)).ToList();
        Line("kind", Words<JointKind>.Of(removals[0].Joint));
        Line("count", Number(removals.Max(r => r.Count)));
        Line("holds", $"[{string.Join(", ", held.Select(part => _ids.Of(Sort.Part, part)))}]" + Note(held.SelectMany(part => HeldUp(undone, part))));
        var ways = order.Of(undone);
        Where(removals.First(r => (r.Tool, r.At) == (ways[0].Tool, ways[0].At)));
        Minutes("undo_min", "make_min", removals, (TradeMinutes.Undo(removals[0].Joint, removals[0].Count), TradeMinutes.Make(removals[0].Joint, removals[0].Count)));
        Line("thread", removals.Select(r => r.Thread).FirstOrDefault(thread => thread is not null), Quoted);
        Line("torque", TorqueOf(removals), figure => figure);
        Line("tray", removals.Select(r => r.Tray).LastOrDefault(tray => tray is not null), Quoted);
        Flag("captive", removals.Any(r => r.Captive));
        Flag("one_time", removals.Any(r => r.OneTime));
        Flag("clean", removals.Any(r => r.Clean));
        Words(removals);
        Needs(undone, ways);
        Reach(undone, ways);
        // What it costs is told only where it was timed; how often it was seen stands in its caution.
        if (TroubleRate.Of(seen, Sort.Joint, joint).FirstOrDefault(rate => rate.ExtraMinutes is not null) is { ExtraMinutes: { } extra } rate)
        {
            Line("risk", $"{{chance: {Rough(rate.Chance)}, minutes: {Number(extra)}, what: it {(rate.Kind == TroubleKind.Broke ? "breaks" : "is seized")}}}   # {rate.Seen} of {rate.Times} times");
        }
    }

    private IEnumerable<Wait> HeldUp(Event joint, string part) =>
        from what in new[] { new Event(Happening.Clear, part), new Event(Happening.Off, part) }
        where seen.Events.Contains(what)
        from way in order.Of(what)
        where way.After.Contains(joint)
        select order.Wait(joint, what, way);

    private void Openings()
    {
        List<(SeenOpening Opening, Sort On)> all =
        [
            .. from opening in seen.Openings
               // A hose is a part that hangs aside, and a joint that lays the port bare sooner.
               let sorts = new[] { Sort.Joint, Sort.Part }.Where(sort => seen.Named(sort).Contains(opening.On)).ToList()
               where sorts.Count > 0
               select (opening, sorts[0]),
        ];
        if (all.Count > 0)
        {
            _text.AppendLine().AppendLine("openings:");
            foreach (var (opening, on) in all)
            {
                _text.AppendLine($"  - {{id: {_ids.Of(Sort.Opening, $"{opening.Name} {opening.On}")}, name: {Quoted(opening.Name)}, on: {_ids.Of(on, opening.On)}, cover: {Quoted(opening.Cover)}}}");
            }
        }
    }

    /// <summary>What has to be new each time, and as much of each fluid as was measured.</summary>
    private void Renewals()
    {
        List<string> all =
        [
            .. from seen in seen.Renewals
               let renewal = seen.Renewal
               select $"{{id: {_ids.Of(Sort.Renewal, $"{renewal.Name} of {renewal.For}")}, name: {Quoted(renewal.Name)}, kind: {Words<RenewalKind>.Of(renewal.Kind)}, for: {_ids.Of(SortOf(renewal.For), renewal.For)}, count: {Number(renewal.Count)}}}"
                   + (seen.Times < seen.Of ? $"   # new in {seen.Times} of {seen.Of}" : ""),
            .. from fluid in _drained
               where fluid.Litres > 0
               select $"{{id: {_ids.Of(Sort.Renewal, $"fresh {fluid.Name}")}, name: {Quoted(fluid.Name)}, kind: fluid, for: {_ids.Of(Sort.Supply, fluid.Name)}, count: {Number(fluid.Litres!.Value)}, unit: L}}",
        ];
        Section("renewals", all, line => _text.AppendLine($"  - {line}"));
    }

    private Sort SortOf(string name) => new[] { Sort.Part, Sort.Joint, Sort.Supply }.First(sort => seen.Named(sort).Contains(name));

    /// <param name="shown">What it is called in the map, where that is not what it goes by here.</param>
    private void Start(Sort sort, string called, string? shown = null)
    {
        _text.AppendLine($"  - id: {_ids.Of(sort, called)}");
        Line("name", Quoted(shown ?? called));
    }

    private void Where(Removal removal)
    {
        if (removal.At != Position.Above)
        {
            Line("at", Words<Position>.Of(removal.At));
        }

        if (!removal.Tool.IsHand)
        {
            Line("tool", Written(removal.Tool));
        }
    }

    /// <summary>What was timed, or else what the trade says.</summary>
    private void Minutes(string outward, string back, IReadOnlyList<Removal> removals, (double Out, double Back) trade)
    {
        Line(outward, Timed(removals.Select(r => r.Minutes)) ?? Number(trade.Out));
        Line(back, Timed(removals.Select(r => r.BackMinutes)) ?? Number(trade.Back));
    }

    private void Flag(string field, bool isSet) => Line(field, isSet ? "true" : null, word => word);

    /// <summary>What to heed at it, and what else there is to tell.</summary>
    private void Words(IReadOnlyList<Removal> removals)
    {
        Line("caution", LearnedCaution.Of(removals, tongue), Quoted);
        if (LearnedNotes.Of(removals, tongue) is { Count: > 0 } notes)
        {
            Line("notes", $"[{string.Join(", ", notes.Select(Quoted))}]");
        }
    }

    private static string? Timed(IEnumerable<double?> minutes) => Median.Of(minutes) is { } middle ? Number(middle) : null;

    /// <summary>Supplies have no ways of their own in a map: only what every way waited for is needed.</summary>
    private void Needs(Event then, IReadOnlyList<SeenWay> ways)
    {
        List<Event> needs = [.. ways[0].After.Where(e => e.What == Happening.Safe && ways.All(way => way.After.Contains(e)))];
        if (needs.Count > 0)
        {
            Line("needs", $"[{string.Join(", ", needs.Select(e => _ids.Of(Sort.Supply, e.Name)))}]" + Note(needs.Select(e => order.Wait(e, then, ways[0]))));
        }
    }

    private void Reach(Event then, IReadOnlyList<SeenWay> ways)
    {
        if (ways.All(way => !InTheWay(way).Any()))
        {
            return;
        }

        if (ways.Count == 1)
        {
            Line("reach", $"{{{Parts(ways[0])}}}" + Note(InTheWay(ways[0]).Select(e => order.Wait(e, then, ways[0]))));
            return;
        }

        Line("reach", "");
        _text.AppendLine("      either:");
        foreach (var way in ways)
        {
            var fields = $"with: {Written(way.Tool)}, at: {Words<Position>.Of(way.At)}" + (InTheWay(way).Any() ? ", " + Parts(way) : "");
            _text.AppendLine($"        - {{{fields}}}{Note(InTheWay(way).Select(e => order.Wait(e, then, way)))}");
        }
    }

    private static IEnumerable<Event> InTheWay(SeenWay way) => way.After.Where(e => e.What is Happening.Clear or Happening.Off);

    private string Parts(SeenWay way) => string.Join(", ",
        InTheWay(way).GroupBy(e => e.What).Select(same =>
            $"{(same.Key == Happening.Clear ? "clear" : "off")}: [{string.Join(", ", same.Select(e => _ids.Of(Sort.Part, e.Name)))}]"));

    private string Note(IEnumerable<Wait> waits)
    {
        List<Wait> all = [.. waits];
        _waits.AddRange(all);
        List<string> doubts = [.. all.Where(wait => wait.IsInDoubt).Select(wait => $"{Clean(wait.First)} then {Clean(wait.Then)}, seen {wait.Times} of {wait.Times}, {wait.Sure * 100:0} % sure")];
        return doubts.Count > 0 ? $"   # in doubt: {string.Join("; ", doubts)}" : "";
    }

    private void Line(string field, string value) => _text.AppendLine(value.Length > 0 ? $"    {field}: {value}" : $"    {field}:");

    /// <summary>A field that is left out when there is nothing to say.</summary>
    private void Line(string field, string? value, Func<string, string> write)
    {
        if (value is not null)
        {
            Line(field, write(value));
        }
    }

    private static string Written(Tool tool) =>
        tool.IsHand ? "hand" : $"{{name: {Quoted(tool.Name)}{(tool.Drive is { } drive ? $", drive: {Quoted(drive)}" : "")}}}";

    private static string Quoted(string text) => $"\"{Clean(text).Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";

    /// <summary>On one line, and without the characters that a map file may not hold.</summary>
    public static string Clean(string text) =>
        string.Concat(text.Select(c => char.IsControl(c) || char.IsSurrogate(c) || c is '\u2028' or '\u2029' or '\uFEFF' or '\uFFFD' or '\uFFFE' or '\uFFFF' ? ' ' : c)).Trim();

    /// <summary>A chance that is known from a handful of times is not known to more than one figure.</summary>
    private static string Rough(double chance) => Number(chance >= 0.1 ? Math.Round(chance, 1) : Math.Max(0.01, Math.Round(chance, 2)));

    private static string Number(double value) => Math.Round(value, 3).ToString(CultureInfo.InvariantCulture);
}

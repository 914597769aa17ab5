using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

/// <summary>Builds a map from the fields of its file. What cannot be read is reported and takes the value that changes nothing.</summary>
internal sealed class MapFields(FaultList faults)
{
    public Map Read(YamlMapping root)
    {
        var fields = new YamlFields(root, "", "The map", faults);
        var format = fields.Whole("format", 0);
        if (format != 1)
        {
            faults.Add("format", format == 0
                ? "The map does not say which format it is written in; start it with 'format: 1'."
                : $"The map is written in format {format} and this program reads format 1; use a newer program, or look for a slip.");
        }

        var map = new Map
        {
            Name = fields.Text("name") ?? "",
            Title = fields.Text("title") ?? "",
            Invented = fields.Flag("invented"),
            Learned = fields.Flag("learned"),
            About = fields.Text("about") ?? "",
            Lessons = fields.Texts("lessons"),
            SetUp = ReadSetUp(fields),
            Collide = CollideFields.Read(fields, faults),
            Supplies = fields.Each("supplies", ReadSupply),
            Parts = fields.Each("parts", ReadPart),
            Joints = fields.Each("joints", ReadJoint),
            Openings = fields.Each("openings", ReadOpening),
            Renewals = fields.Each("renewals", ReadRenewal),
            Proofs = fields.Each("proofs", ReadProof),
        };
        fields.Finish();
        return map.Learned ? map with { Proofs = [.. map.Proofs.Select(proof => proof with { WhenItRuns = proof.Kind == ProofKind.LeakLook })] } : map;
    }

    private static SetUpMinutes ReadSetUp(YamlFields map)
    {
        var usual = SetUpMinutes.Usual;
        if (map.Fields("set_up_min", "The set-up") is not { } fields)
        {
            return usual;
        }

        var setUp = new SetUpMinutes(fields.Number("tool", usual.Tool), fields.Number("position", usual.Position), fields.Number("lift", usual.Lift));
        fields.Finish();
        return setUp;
    }

    private Supply ReadSupply(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Supply");
        var supply = new Supply
        {
            Id = id,
            Name = fields.Text("name") ?? "",
            Kind = Kind<SupplyKind>(fields),
            At = fields.Choice<Position>("at") ?? Position.Above,
            Tool = ReadTool(fields, "tool") ?? Tool.Hand,
            SafeMinutes = fields.Number("safe_min", 0),
            RunsMinutes = fields.Number("runs_min", 0),
            RestoreMinutes = fields.Number("restore_min", 0),
            MakeSafe = fields.Text("make_safe"),
            Restore = fields.Text("restore"),
            Amount_L = ReadLitres(fields),
            Fluid = FluidFields.ReadFluid(fields, faults),
            Needs = fields.Names("needs"),
            Reach = ReadReach(fields),
            Caution = fields.Text("caution"),
            Notes = fields.Texts("notes"),
            Line = mapping.Line,
        };
        fields.Finish();
        return supply;
    }

    private Part ReadPart(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Part");
        var part = new Part
        {
            Id = id,
            Name = fields.Text("name") ?? "",
            At = fields.Choice<Position>("at") ?? Position.Above,
            Tool = ReadTool(fields, "tool") ?? Tool.Hand,
            OffMinutes = fields.Number("off_min", 0),
            OnMinutes = fields.Number("on_min", 0),
            Needs = fields.Names("needs"),
            Reach = ReadReach(fields),
            Aside = ReadAside(fields),
            RidesOn = fields.Text("rides_on"),
            Caution = fields.Text("caution"),
            Notes = fields.Texts("notes"),
            Line = mapping.Line,
        };
        fields.Finish();
        return part;
    }

    private Joint ReadJoint(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Joint");
        var joint = new Joint
        {
            Id = id,
            Name = fields.Text("name") ?? "",
            Kind = Kind<JointKind>(fields),
            Count = fields.Whole("count", 1),
            Holds = fields.Names("holds"),
            Captive = fields.Flag("captive"),
            OneTime = fields.Flag("one_time"),
            Clean = fields.Flag("clean"),
            At = fields.Choice<Position>("at") ?? Position.Above,
            Tool = ReadTool(fields, "tool") ?? Tool.Hand,
            Thread = fields.Text("thread"),
            Torque = ReadTorque(fields),
            Tray = fields.Text("tray"),
            UndoMinutes = fields.Number("undo_min", 0),
            MakeMinutes = fields.Number("make_min", 0),
            CuresMinutes = fields.Number("cures_min", 0),
            Needs = fields.Names("needs"),
            Reach = ReadReach(fields),
            Risk = ReadRisk(fields),
            Caution = fields.Text("caution"),
            Notes = fields.Texts("notes"),
            Line = mapping.Line,
        };
        joint = joint with { Tighten = TightnessFields.Read(fields, joint, faults) };
        fields.Finish();
        return joint;
    }

    private Opening ReadOpening(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Opening");
        var opening = new Opening(id, fields.Text("name") ?? "", fields.Text("on") ?? "", fields.Text("cover") ?? "", fields.Number("cover_min", 0), mapping.Line);
        fields.Finish();
        return opening;
    }

    private Renewal ReadRenewal(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Renewal");
        var renewal = new Renewal(id, fields.Text("name") ?? "", Kind<RenewalKind>(fields), fields.Text("for") ?? "", fields.Number("count", 1), fields.Text("unit") ?? "", mapping.Line);
        fields.Finish();
        return renewal;
    }

    private Proof ReadProof(YamlMapping mapping, string path)
    {
        var (fields, id) = Start(mapping, path, "Proof");
        var proof = new Proof(id, fields.Text("name") ?? "", Kind<ProofKind>(fields), fields.Text("for") ?? "", fields.Number("minutes", 0), fields.Text("caution"), mapping.Line);
        proof = FluidFields.ReadNeeds(fields, proof, faults);
        fields.Finish();
        return proof;
    }

    private (YamlFields Fields, string Id) Start(YamlMapping mapping, string path, string what)
    {
        faults.Place(path, mapping.Line);
        var called = mapping.Entries.FirstOrDefault(e => e.Key == "id")?.Value is YamlScalar { IsEmpty: false, Text: var written } ? $"{what} '{written}'" : $"A {what.ToLowerInvariant()}";
        var fields = new YamlFields(mapping, path, called, faults);
        return (fields, fields.Text("id") ?? "");
    }

    private T Kind<T>(YamlFields fields) where T : struct, Enum
    {
        if (!fields.Has("kind"))
        {
            faults.Add(fields.At("kind"), $"{fields.What} has no kind; give it one of {string.Join(", ", Words<T>.All)}.");
        }

        return fields.Choice<T>("kind") ?? default;
    }

    /// <summary>"hand", or {name: ratchet 1/4 in, drive: hex 10 mm}.</summary>
    private Tool? ReadTool(YamlFields fields, string field)
    {
        switch (fields.Take(field))
        {
            case null:
                return null;
            case YamlScalar scalar:
                return new Tool(scalar.Text.Trim(), null);
            case YamlMapping mapping:
                var tool = fields.Within(mapping, field, $"The tool of {fields.WhatInside}");
                var read = new Tool(tool.Text("name") ?? "", tool.Text("drive"));
                tool.Finish();
                if (read.Name.Length == 0)
                {
                    faults.Add(tool.At("name"), $"{tool.What} has no name; write 'hand', or {{name: ratchet 1/4 in, drive: hex 10 mm}}.");
                }

                return read;
            case var other:
                fields.Wrong(field, other, "the name of a tool, or {name: .., drive: ..}");
                return null;
        }
    }

    private Torque? ReadTorque(YamlFields fields)
    {
        if (fields.Text("torque") is not { } text)
        {
            return null;
        }

        if (Torque.TryParse(text, out var torque))
        {
            return torque;
        }

        faults.Add(fields.At("torque"), $"{fields.What}: the torque '{text}' cannot be read; write a number, not below zero, with N·m, in·lb, ft·lb or kgf·m, such as '22 N·m'.");
        return null;
    }

    private double? ReadLitres(YamlFields fields)
    {
        if (fields.Text("amount") is not { } text)
        {
            return null;
        }

        if (Volume.TryParseLitres(text, out var litres))
        {
            return litres;
        }

        faults.Add(fields.At("amount"), $"{fields.What}: the amount '{text}' cannot be read; write a number with one of {string.Join(", ", Volume.Units)}, such as '2.4 L'.");
        return null;
    }

    private Risk? ReadRisk(YamlFields owner)
    {
        if (owner.Fields("risk", $"The risk of {owner.WhatInside}") is not { } fields)
        {
            return null;
        }

        foreach (var missing in new[] { "chance", "minutes" }.Where(field => !fields.Has(field)))
        {
            faults.Add(fields.At(missing), $"{fields.What} has no '{missing}'; write {{chance: 0.3, minutes: 15}} for 3 in 10 that it takes 15 minutes more.");
        }

        var risk = new Risk(fields.Number("chance", 0), fields.Number("minutes", 0), fields.Text("what") ?? Risk.Unnamed);
        fields.Finish();
        return risk;
    }

    private static Aside? ReadAside(YamlFields part)
    {
        if (part.Fields("aside", $"The aside of {part.WhatInside}") is not { } fields)
        {
            return null;
        }

        var aside = new Aside(fields.Names("leaves"), fields.Number("aside_min", 0), fields.Number("home_min", 0));
        fields.Finish();
        return aside;
    }

    /// <summary>A list of parts to clear, or {clear, off, either}.</summary>
    private Reach ReadReach(YamlFields owner)
    {
        switch (owner.Take("reach"))
        {
            case null:
                return Reach.Free;
            case YamlList list:
                return new Reach(owner.Names(list, owner.At("reach")), [], []);
            case YamlMapping mapping:
                var what = $"The reach of {owner.WhatInside}";
                var fields = owner.Within(mapping, "reach", what);
                var offersWays = fields.Has("either");
                var reach = new Reach(fields.Names("clear"), fields.Names("off"), fields.Each("either", (way, path) => ReadWay(owner, way, path)));
                fields.Finish();
                if (offersWays && reach.Either.Count == 0)
                {
                    faults.Add(fields.At("either"), $"{what} offers no alternative under 'either'; list at least one, or take the field out.");
                }

                return reach;
            case var other:
                owner.Wrong("reach", other, "a list of parts, or {clear: [..], off: [..], either: [..]}");
                return Reach.Free;
        }
    }

    private ReachWay ReadWay(YamlFields owner, YamlMapping mapping, string path)
    {
        var fields = owner.At(mapping, path, $"An alternative of {owner.WhatInside}");
        var way = new ReachWay(
            fields.Names("clear"), fields.Names("off"), fields.Choice<Position>("at"), ReadTool(fields, "with"), fields.Number("times", 1), mapping.Line, ReadRisk(fields));
        fields.Finish();
        return way;
    }
}

using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

/// <summary>Reads the <c>tighten</c> of a joint. What cannot be used is reported and left out.</summary>
internal sealed class TightnessFields
{
    private const double LongestThread_mm = 1_000;
    private const double MostForce_N = 1e7;
    private const double MostStrength_MPa = 3_000;

    private readonly YamlFields _fields;
    private readonly FaultList _faults;

    private TightnessFields(YamlFields fields, FaultList faults) => (_fields, _faults) = (fields, faults);

    /// <param name="joint">Read but for what it is tightened by.</param>
    public static Tightness? Read(YamlFields owner, Joint joint, FaultList faults) =>
        owner.Fields("tighten", $"The tightening of {owner.WhatInside}") is { } fields ? new TightnessFields(fields, faults).Read(joint) : null;

    private Tightness Read(Joint joint)
    {
        var givesHoles = _fields.Has("holes");
        var holes = HoleFields.Read(_fields, joint, _faults);
        IReadOnlyList<int> order = holes?.Order ?? [.. Enumerable.Range(0, Math.Clamp(joint.Count, 1, HolePattern.MostHoles))];
        var tightness = new Tightness
        {
            Strength = ReadStrength(joint),
            Engaged_mm = Quantity("engaged", Measure.Length_mm, LongestThread_mm),
            Into = ReadBoss(),
            Hold_N = Quantity("hold", Measure.Force_N, MostForce_N),
            Condition = ReadCondition(),
            Friction = ReadFriction(),
            Fastener = _fields.Choice<FastenerAction>("fastener") ?? FastenerAction.Plain,
            Holes = holes?.Pattern,
            Order = order,
            Passes = ReadPasses(joint, order, holes?.Pattern),
            Interaction = ReadInteraction(holes?.Pattern, givesHoles),
        };
        _fields.Finish();
        return tightness;
    }

    private Strength? ReadStrength(Joint joint)
    {
        if (_fields.Text("class") is not { } mark)
        {
            return null;
        }

        if (joint.Thread is not { } thread)
        {
            _faults.Add(_fields.At("class"), $"{_fields.What} gives a class and the joint no thread; give 'thread', as M8x1.25.");
            return null;
        }

        return Value("class", ThreadReader.Read(thread).TryGet(out var read, out var sentence) ? BoltGrade.Of(mark, read) : Answer.None<Strength>(sentence));
    }

    private BossMaterial? ReadBoss()
    {
        var material = _fields.Text("into") is { } name ? Value("into", BossMaterial.Named(name)) : null;
        return Quantity("boss_strength", Measure.Stress_MPa, MostStrength_MPa) is { } stated
            ? new BossMaterial(material?.Name ?? "boss", stated, material?.UsualDiameters, "stated")
            : material;
    }

    private StatedCondition? ReadCondition()
    {
        var condition = _fields.Choice<ThreadCondition>("condition");
        var source = _fields.Text("source");
        if (condition is not null && source is null)
        {
            _faults.Add(_fields.At("condition"), $"{_fields.What} states how the threads go together and not who says so; give 'source'.");
        }
        else if (condition is null && source is not null)
        {
            _faults.Add(_fields.At("source"), $"{_fields.What} names a source and states no 'condition'; give one of {string.Join(", ", Words<ThreadCondition>.All)}, or take the source out.");
        }

        return condition is { } known && source is not null ? new StatedCondition(known, source) : null;
    }

    private Friction? ReadFriction()
    {
        if (_fields.Text("friction") is not { } text)
        {
            return null;
        }

        if (Friction.Read(text).TryGet(out var friction, out var sentence))
        {
            return friction;
        }

        _faults.Add(_fields.At("friction"), $"{_fields.What}: {sentence}");
        return null;
    }

    private IReadOnlyList<Pass> ReadPasses(Joint joint, IReadOnlyList<int> order, HolePattern? pattern)
    {
        if (!_fields.Has("passes"))
        {
            return [];
        }

        IReadOnlyList<string> words = _fields.Take("passes") switch
        {
            YamlList list when list.Items.All(item => item is YamlScalar) => [.. list.Items.Cast<YamlScalar>().Select(item => item.Text)],
            YamlScalar one => [one.Text],
            _ => [],
        };
        var round = pattern is null ? order : TighteningOrder.Round(pattern);
        var passes = Value("passes", PassReader.Read(words, order, round)) ?? [];
        if (joint.Count > HolePattern.MostHoles)
        {
            _faults.Add(_fields.At("passes"), $"{_fields.What} is made in passes over {joint.Count} bolts; more than {HolePattern.MostHoles} must be a slip.");
        }
        else if (joint.Torque is null && passes.Any(pass => pass.Share is not null))
        {
            _faults.Add(_fields.At("passes"), $"{_fields.What}: the passes are shares of a torque, and the joint has none; give 'torque'.");
        }

        return passes;
    }

    private IReadOnlyList<double> ReadInteraction(HolePattern? pattern, bool givesHoles)
    {
        if (NumberList.Read(_fields, "interaction", _faults) is not { } shares)
        {
            return [];
        }

        if (pattern is null)
        {
            // Holes that cannot be are reported where they stand.
            if (!givesHoles)
            {
                _faults.Add(_fields.At("interaction"), $"{_fields.What}: what a neighbour loses needs 'holes', to know which bolts are neighbours.");
            }

            return [];
        }

        return Value("interaction", ElasticInteraction.Of(pattern, shares)) is null ? [] : shares;
    }

    private double? Quantity(string field, Measure measure, double most)
    {
        if (_fields.Text(field) is not { } text)
        {
            return null;
        }

        if (measure.TryRead(text, out var value) && value > 0 && value <= most)
        {
            return value;
        }

        _faults.Add(_fields.At(field), $"{_fields.What}: '{field}' is '{text}'; write {measure.What} above zero with its unit, like {measure.Example}.");
        return null;
    }

    private T? Value<T>(string field, Answer<T> answer) where T : class
    {
        if (!answer.Found)
        {
            _faults.Add(_fields.At(field), $"{_fields.What}: {answer.Sentence}");
        }

        return answer.Value;
    }
}

using System.CommandLine;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary>What a bolt is screwed into, alike for stripping and judging.</summary>
internal sealed class BossOptions
{
    private readonly Option<string?> _engaged = new("--engaged") { Description = "Length of full thread engaged, such as 16mm." };
    private readonly Option<string?> _into = new("--into") { Description = "aluminium, magnesium, iron or steel: reckoned at a low strength. A plastic needs its --boss-strength." };
    private readonly Option<string?> _strength = new("--boss-strength") { Description = "Tensile strength of what it is screwed into, such as 240MPa." };

    public void AddTo(Command command)
    {
        command.Options.Add(_engaged);
        command.Options.Add(_into);
        command.Options.Add(_strength);
    }

    public bool Given(ParseResult parsed) => (parsed.GetValue(_engaged) ?? parsed.GetValue(_into) ?? parsed.GetValue(_strength)) is not null;

    public (Stripping Stripping, BossMaterial Boss) Stripping(ParseResult parsed, ScrewThread thread, double boltTensile_MPa)
    {
        var engaged = parsed.Read(_engaged, Measure.Length_mm) ?? throw new Failure("--engaged: state the length of full thread engaged, such as 16mm.");
        var material = parsed.GetValue(_into) is { } name ? BossMaterial.Named(name).OrFail("--into") : null;
        var strength = parsed.Read(_strength, Measure.Stress_MPa) ?? material?.Tensile_MPa
            ?? throw new Failure(material is null ? "--boss-strength: state the strength of what it is screwed into, such as 240MPa, or name it with --into."
                : $"--into {material.Name}: no strength is reckoned with, because {material.Source}; state it with --boss-strength.");
        var stated = parsed.GetValue(_strength) is not null;
        return (Core.Joints.Stripping.Of(thread, engaged, boltTensile_MPa, strength).OrFail("--engaged"),
            new BossMaterial(material?.Name ?? "boss", strength, material?.UsualDiameters, stated ? "stated" : material!.Source));
    }
}

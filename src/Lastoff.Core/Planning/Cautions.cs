using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Planning;

/// <summary>The usual cautions, shown at the step where they matter, after what the map itself says.</summary>
/// <remarks>Common practice, no source. The maker's specification for the machine, local law and licensed practice come first.</remarks>
public static class Cautions
{
    /// <summary>As much as is read at a glance.</summary>
    private const int Short = 130;

    /// <param name="liftGoesUp">Whether the machine is raised for this step.</param>
    /// <returns>One paragraph, or null when the step has no caution.</returns>
    public static string? For(OperationNet net, StepKind kind, string target, bool liftGoesUp) =>
        Of(net, kind, target, liftGoesUp) is { Count: > 0 } cautions ? string.Join(" ", cautions) : null;

    /// <summary>A step's caution, where it is long, as what must be seen before the act, and the rest of it: of each caution that it is made of, the map's own and the usual ones, the first sentence is seen.</summary>
    /// <returns>The more is null where all of it is seen.</returns>
    public static (string Lead, string? More) Parted(OperationNet net, PlanStep step)
    {
        var whole = step.Caution ?? "";
        var cautions = Of(net, step.Kind, step.Target, liftGoesUp: true).Where(whole.Contains).Select(Sentences).ToList();
        return whole.Length <= Short || cautions.All(sentences => sentences.Length == 1) || string.Join(" ", cautions.SelectMany(sentences => sentences)) != whole
            ? (whole, null)
            : (string.Join(" ", cautions.Select(sentences => sentences[0])), string.Join(" ", cautions.SelectMany(sentences => sentences.Skip(1))));
    }

    private static string[] Sentences(string caution) => caution.Replace(". ", ".\n", StringComparison.Ordinal).Split('\n');

    private static List<string> Of(OperationNet net, StepKind kind, string target, bool liftGoesUp)
    {
        var cautions = new List<string>();
        if (liftGoesUp)
        {
            cautions.Add("Raise it on the maker's lifting points, lock the lift or set stands on firm ground, shake it before going under; eye protection.");
        }

        switch (kind)
        {
            case StepKind.MakeSafe or StepKind.Restore:
                Add(net.Supplies[target].Caution, OfSupply(net.Supplies[target].Kind, kind == StepKind.Restore));
                break;
            case StepKind.Undo:
                var joint = net.Joints[target];
                Add(joint.Caution, OfUndoing(joint.Kind));
                if (net.Map.Learned && IsLine(joint) && !net.OpeningsOn.ContainsKey(target))
                {
                    cautions.Add(OfOpenEnds);
                }

                cautions.AddRange(joint.Needs.Select(supply => net.Supplies[supply].Kind).Where(kind => MayCome(net, joint, kind)).Select(OfOpening).OfType<string>().Distinct());
                break;
            case StepKind.Make:
                Add(net.Joints[target].Caution, RecordedMap.IsAllTold(net.Map) && IsLine(net.Joints[target]) ? OfConnecting : null);
                break;
            case StepKind.Clean:
                // On the end of a hose or pipe there is nothing to scrape.
                Add(null, net.Joints[target].Kind is JointKind.Hose or JointKind.Pipe ? null : "Old gaskets may hold asbestos: scrape wet, never blow or brush dry; eye protection with solvents.");
                break;
            case StepKind.TakeOff or StepKind.LayAside or StepKind.Fit or StepKind.BringHome:
                Add(net.Parts[target].Caution, null);
                break;
            case StepKind.Prove:
                var proof = net.Proofs[target];
                Add(proof.Caution, proof.Kind == ProofKind.LeakLook && net.Supplies.TryGetValue(proof.For, out var filled) ? OfLeakLook(filled.Kind) : OfProof(proof.Kind));
                break;
        }

        return cautions;

        void Add(string? own, string? usual)
        {
            if (!string.IsNullOrWhiteSpace(own))
            {
                cautions.Add(own);
            }

            if (usual is not null)
            {
                cautions.Add(usual);
            }
        }
    }

    public static string OfSupply(SupplyKind kind, bool restoring) => (kind, restoring) switch
    {
        (SupplyKind.Battery, false) => "Ignition off and key out; earth lead off first; no sparks or metal across the terminals; where there are airbags, wait the maker's time before touching their connectors or those of the belts.",
        (SupplyKind.Battery, true) => "Earth lead on last; eye protection; where there are airbags, nobody in the seats while their circuits come alive.",
        (SupplyKind.HighVoltage, _) => "High voltage kills: only a person licensed for it may switch off, lock out, prove dead and switch on again, by the maker's procedure.",
        (SupplyKind.FuelPressure, false) => "Fuel vapour: no flame, spark or hot lamp; air moving, extinguisher at hand; let the pressure down before any fitting is opened; gloves and eye protection.",
        (SupplyKind.FuelPressure, true) => "Fuel vapour: wipe spills before power comes on, then look for leaks before the first start.",
        (SupplyKind.Coolant, false) => "Hot coolant is under pressure and scalds: let it cool before the cap is touched. It is poison to people and animals: catch it, keep it from children and pets, dispose of it by local law.",
        (SupplyKind.Coolant, true) => "Fill it cold, with the maker's coolant and mix. Poison, and sweet to children and animals: wipe spills. The cap goes on before it is warmed up.",
        (SupplyKind.Oil, false) => "Hot oil burns; gloves, used oil harms the skin. Catch it and dispose of it by local law.",
        (SupplyKind.Oil, true) => "Fill with the maker's grade and amount, and read the level before starting.",
        (SupplyKind.Refrigerant, _) => "Refrigerant freezes skin and eyes and must not be let out: only a person licensed for it may recover or charge it.",
        (SupplyKind.Vacuum, false) => "Let the vacuum down slowly; brake servo and valves may move.",
        (SupplyKind.Vacuum, true) => "Prove that the brake servo holds before the machine moves.",
        (SupplyKind.Hydraulic, false) => "A fine jet goes through skin: never feel for a leak by hand. Lower or prop everything raised, then let the pressure down; stored pressure remains in accumulators.",
        (SupplyKind.Hydraulic, true) => "Keep clear of what may move; a fine jet goes through skin. Bleed before the machine is used.",
        (SupplyKind.Heat, false) => "Hot parts burn: engine off, key out, and wait until a bare hand can rest on what is worked at. Fans may start by themselves.",
        (SupplyKind.Heat, true) => "Before it may turn or heat again: no tool, rag or lead near fan and belt, guards on, everybody clear.",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>
    /// By recordings alone a joint waits for all that was safe before it, the guard's bolts for the hydraulic oil as well: of what runs out of hoses and pipes only those are warned, of what is under pressure
    /// whatever holds it in. High voltage is wherever somebody reaches. What a bare hand screws on and off, a shield by its knobs, holds no pressure in.
    /// </summary>
    private static bool MayCome(OperationNet net, Joint joint, SupplyKind kind) =>
        !(kind == SupplyKind.Hydraulic && joint.IsFastener && joint.Tool.IsHand && RecordedMap.IsToolKnown(net.Map, joint.Tool))
        && (!RecordedMap.IsAllTold(net.Map) || IsLine(joint) || kind switch
        {
            SupplyKind.Oil or SupplyKind.Coolant => false,
            SupplyKind.Hydraulic or SupplyKind.FuelPressure or SupplyKind.Refrigerant => HoldsPressure(net, joint),
            _ => true,
        });

    /// <summary>A face, a plug, or what holds a part that a hose or pipe comes to.</summary>
    private static bool HoldsPressure(OperationNet net, Joint joint) =>
        joint.Kind == JointKind.Face || LineReader.IsDrain(new Reading { Name = joint.Name, Kind = joint.Kind })
        || joint.Kind != JointKind.Connector && joint.Holds.Any(part => net.JointsOf[part].Any(IsLine));

    private static bool IsLine(Joint joint) => joint.Kind is JointKind.Hose or JointKind.Pipe;

    /// <summary>What may still come out of a joint whose supply was made safe.</summary>
    public static string? OfOpening(SupplyKind kind) => kind switch
    {
        SupplyKind.FuelPressure => "Fuel may still run out: catch it in a rag, no flame or spark.",
        SupplyKind.Coolant => "Coolant may still run out: catch it; poison to people and animals.",
        SupplyKind.Oil => "Oil may still run out: catch it.",
        SupplyKind.HighVoltage => "Only after a licensed person has proved it dead.",
        SupplyKind.Refrigerant => "Only after a licensed person has emptied it.",
        SupplyKind.Hydraulic => "Crack it open slowly and keep hands and face away.",
        SupplyKind.Battery or SupplyKind.Vacuum or SupplyKind.Heat => null,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Of what is in a hose or pipe and is no supply: air, steam.</summary>
    public const string OfPressure = "What is under pressure lets go at once: shut it off and let it down before it is opened; eye protection. Steam burns.";

    /// <summary>Of a hose or pipe that was recorded, when it comes off.</summary>
    public const string OfOpenEnds = "Close both open ends, and count what closes them.";

    /// <summary>Of a hose or pipe that was recorded, when it is connected.</summary>
    public const string OfConnecting = "Nothing may be left in its ends: take out what closed them.";

    /// <summary>Of a spring, which comes off and goes on by hand.</summary>
    public const string OfSpring = "A spring under tension flies when it slips: hold it fast, ease it slowly, face out of its line; eye protection.";

    /// <summary>Of flame and heat on what is stuck.</summary>
    public const string OfHeat = "Heat and flame: no oil, fuel, grease or spray near, extinguisher at hand. Seals and rubber that got hot give off poison and have to be new; hot metal looks cold.";

    public static string? OfProof(ProofKind kind) => kind switch
    {
        ProofKind.WarmUp => "Keep hands, sleeves and leads from fans and belts, which may start by themselves; lead the exhaust out of the room; hot parts.",
        ProofKind.Function => "Keep people clear of whatever may move.",
        ProofKind.PressureHold => "Cold only, and never above the maker's test pressure; keep out of line with hoses and seams; let it down before anything is opened.",
        ProofKind.VacuumHold => "Cold only; eye protection. A hose going flat is normal, a tank or neck that cracks is not: stop.",
        ProofKind.Mix => "Open it only when it is cold: hot coolant is under pressure and scalds. Poison to people and animals.",
        ProofKind.TorquePasses or ProofKind.LeakLook => null,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>A fluid is looked for while it is under pressure.</summary>
    private static string? OfLeakLook(SupplyKind kind) => kind switch
    {
        SupplyKind.Hydraulic => "A fine jet goes through skin: look with a piece of card, never feel for a leak by hand. Keep clear of what may move.",
        SupplyKind.FuelPressure => "A fine jet goes through skin: never feel for a leak by hand. Fuel vapour: no flame, spark or hot lamp.",
        SupplyKind.Oil or SupplyKind.Coolant => "Where it runs meanwhile: hands, sleeves and leads away from what turns; hot parts burn.",
        _ => null,
    };

    private static string? OfUndoing(JointKind kind) => kind switch
    {
        JointKind.Clamp => "A spring clamp flies when it slips: eye protection.",
        JointKind.Face => "A stuck face lets go at once: pry only where the maker allows, and mind your fingers.",
        _ => null,
    };
}

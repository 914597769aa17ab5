using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Filling;

/// <summary>What is known before a drained cooling system is filled.</summary>
/// <param name="NowPercent">The strength of what stayed in.</param>
/// <param name="StrengthPercent">What is poured beside water: 100 for concentrate, the printed share for a ready-mix.</param>
/// <param name="Boils">The absolute pressure it will boil under: the weather's and the cap's.</param>
/// <param name="BottlesLitres">The sizes it is sold in; none to leave out what to buy.</param>
public sealed record FillQuestion(
    Glycol Glycol,
    double CapacityLitres,
    double DrainedLitres,
    double NowPercent,
    double TargetPercent,
    double StrengthPercent,
    Pressure Boils,
    IReadOnlyList<double> BottlesLitres)
{
    /// <summary>The drains and fillings, after the one that has been, that leave new what is asked for.</summary>
    /// <param name="newPercent">How much of the fluid is to be new.</param>
    public Answer<FlushPlan> Flush(double newPercent) =>
        FlushPlan.Of(CapacityLitres, DrainedLitres, 100 - newPercent, TargetPercent, StrengthPercent, NowPercent, isDrained: true);
}

/// <summary>What to pour into a drained cooling system, and what that makes.</summary>
/// <param name="Mix">What it makes in the end, after all the drains it takes.</param>
/// <param name="ToBuy">How many of each bottle, in the order given.</param>
public sealed record FillAdvice(FillQuestion Question, Refill Refill, Coolant Mix, Temperature Boiling, IReadOnlyList<int> ToBuy)
{
    public static Answer<FillAdvice> Of(FillQuestion question)
    {
        var refill = Refill.Of(question.CapacityLitres, question.DrainedLitres, question.NowPercent, question.TargetPercent, question.StrengthPercent);
        if (!refill.Found)
        {
            return Answer.None<FillAdvice>(refill.Sentence);
        }

        var mix = Coolant.FromVolumePercent(question.Glycol, refill.Value.Plan?.Percent ?? refill.Value.ResultPercent);
        if (!mix.Found)
        {
            return Answer.None<FillAdvice>(mix.Sentence);
        }

        var bottles = question.BottlesLitres;
        var strong = refill.Value.Plan?.StrongLitres ?? refill.Value.Strong;
        return bottles.Count > 0 && (bottles.Any(size => size is not (>= Containers.LeastLitres and <= Containers.MostLitres)) || strong > Containers.MostLitres)
            ? Answer.None<FillAdvice>(Containers.OutOfRange)
            : new FillAdvice(question, refill.Value, mix.Value, mix.Value.BoilingAt(question.Boils), bottles.Count == 0 ? [] : Containers.ToBuy(strong, bottles));
    }

    /// <summary>How far the mix in the end may be off, in points: about two standard deviations.</summary>
    public double PlusMinusPercent => Refill.Plan is { } plan ? PlusMinus(plan.Steps.Select(step => (step.DrainLitres, step.StrongLitres))) : Refill.ResultPlusMinusPercent;

    /// <summary>What the record says once every drain of the plan has been made and filled as it says; nothing where there is no plan.</summary>
    /// <param name="label">What stands on the label.</param>
    public Poured? PourAll(string label) => Refill.Plan is { } plan ? Whole(label, plan.Steps.Count, plan.StrongLitres, plan.WaterLitres, plan.Percent, PlusMinusPercent) : null;

    /// <summary>The same of a flush, which ends at the target.</summary>
    public Poured PourFlush(string label, FlushPlan plan) => Whole(
        label, plan.Steps.Count, plan.StrongLitres, plan.WaterLitres, Question.TargetPercent, PlusMinus(plan.Steps.Select(step => (step.DrainLitres, step.StrongLitres))));

    /// <summary>What the record says of it, with the litres that really went in, poured in these shares.</summary>
    /// <param name="label">What stands on the label.</param>
    public Poured Pour(string label, double? litres)
    {
        var percent = Question.StrengthPercent * Refill.Strong / Refill.DrainedLitres;
        if (litres is not { } poured || Refill.LeftLitres + poured <= 0)
        {
            return new Poured(label, Tenths(percent), Tenths(Question.NowPercent));
        }

        var mix = ((Question.NowPercent * Refill.LeftLitres) + (percent * poured)) / (Refill.LeftLitres + poured);
        return new Poured(label, Tenths(percent), Tenths(Question.NowPercent), Tenths(mix), Tenths(Refill.ResultPlusMinusPercent));
    }

    private Poured Whole(string label, int fills, double strong, double water, double end, double plusMinus) =>
        new(label, Tenths(Question.StrengthPercent * strong / (strong + water)), Tenths(Question.NowPercent), Tenths(end), Tenths(plusMinus)) { Fills = fills > 1 ? fills : null };

    private double PlusMinus(IEnumerable<(double DrainLitres, double StrongLitres)> fillings) =>
        MixUncertainty.PlusMinusPercent(Question.CapacityLitres, Question.NowPercent, Question.StrengthPercent, fillings);

    // No strength is known better than that.
    private static double Tenths(double percent) => Math.Round(percent, 1);
}

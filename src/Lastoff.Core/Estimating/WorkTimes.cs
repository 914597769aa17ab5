namespace Lastoff.Core.Estimating;

/// <summary>How long work takes, learned from what was timed: the trade's minutes times factors for kind, size, reach, person and job.</summary>
/// <remarks>
/// The logarithm of minutes over trade minutes is a common offset, plus an offset for each trait, plus scatter; all of them normal. Where little is known
/// every offset stays near zero, which is the trade's word. The equations are in docs/methods/times.md.
/// </remarks>
public sealed class WorkTimes
{
    // Before anything was timed; set down, no source. The whole trade may be off by a third either way; kinds, sizes, reaches and people differ by some 20 %,
    // jobs by 15 %; single pieces of work scatter by a half.
    private const double CommonDeviation = 0.3;
    private const double OwnScatter = 0.45;
    private const double ScatterKnownAs = 8;
    private const int Rounds = 6;
    private static readonly Trait[] Traits = Enum.GetValues<Trait>();

    private readonly Dictionary<(Trait, string), int> _places = [];
    private readonly Dictionary<Trait, double> _spread = Traits.ToDictionary(trait => trait, ScaleOf);
    private readonly double[] _offsets;
    private readonly double[,] _covariance;
    private double _variance;

    /// <exception cref="ArgumentException">Some minutes are not finite and above zero.</exception>
    public WorkTimes(IReadOnlyList<TimedWork> timed)
    {
        if (timed.FirstOrDefault(t => !double.IsFinite(t.LogRatio)) is { } wrong)
        {
            throw new ArgumentException($"Work of {wrong.Work.TradeMinutes} trade minutes took {wrong.Minutes}; both must be above zero.", nameof(timed));
        }

        foreach (var trait in timed.SelectMany(t => t.Work.Traits).Select(trait => (trait.Key, trait.Value)).Distinct().Order())
        {
            _places[trait] = _places.Count + 1;
        }

        _variance = FirstVariance(timed);
        (_offsets, _covariance) = Solve(timed);
        for (var round = 0; round < Rounds && timed.Count > 0; round++)
        {
            Learn(timed);
            (_offsets, _covariance) = Solve(timed);
        }
    }

    /// <summary>The scatter of single pieces of work: the standard deviation of the logarithm.</summary>
    public double Scatter => Math.Sqrt(_variance);

    /// <summary>The factor on the trade's minutes for one piece of work, by all that is known of it.</summary>
    public double Factor(Work work) => Math.Exp(Places(work).Sum(place => _offsets[place]));

    /// <summary>What a plan takes whose pieces of work all belong to one job.</summary>
    public MinutesEstimate Of(IReadOnlyList<Work> plan) => MinutesEstimate.Of(MomentsOf(plan));

    /// <summary>Mean and variance of what a plan takes whose pieces of work all belong to one job.</summary>
    public Moments MomentsOf(IReadOnlyList<Work> plan)
    {
        // Pieces of the same traits share the same, so that only their sums are held against each other.
        List<(Work One, int[] Places, double[] Minutes)> groups =
        [
            .. from work in plan
               group work by string.Join('\n', Traits.Select(trait => work.Traits.GetValueOrDefault(trait))) into alike
               let one = alike.First()
               select (one, (int[])[.. Places(one)], (double[])[.. alike.Select(work => work.TradeMinutes)]),
        ];
        var sum = new Moments(0, 0);
        double[] means = [.. groups.Select((g, i) => g.Minutes.Sum() * Ratio(i))];
        for (var i = 0; i < groups.Count; i++)
        {
            for (var j = 0; j < groups.Count; j++)
            {
                sum += new Moments(0, means[i] * means[j] * (Math.Exp(Shared(i, j)) - 1));
            }

            // What single pieces scatter by themselves.
            var own = groups[i].Minutes.Sum(minutes => minutes * minutes) * Ratio(i) * Ratio(i);
            sum += new Moments(means[i], own * Math.Exp(Shared(i, i)) * (Math.Exp(_variance) - 1));
        }

        return sum;

        double Ratio(int i) => Math.Exp(groups[i].Places.Sum(place => _offsets[place]) + (Shared(i, i) / 2) + (_variance / 2));

        double Shared(int i, int j) => groups[i].Places.Sum(a => groups[j].Places.Sum(b => _covariance[a, b])) + NewSpread(groups[i].One, groups[j].One);
    }

    /// <summary>What a trait of this sort is thought to do before anything is known: the scale of its spread.</summary>
    private static double ScaleOf(Trait trait) => trait == Trait.Job ? 0.15 : 0.2;

    private IEnumerable<int> Places(Work work) =>
        work.Traits.Select(trait => _places.GetValueOrDefault((trait.Key, trait.Value))).Where(place => place > 0).Prepend(0);

    /// <summary>What two pieces of work share by traits that were never timed, the job among them.</summary>
    private double NewSpread(Work one, Work other) => Traits.Sum(trait =>
    {
        var (has, too) = (one.Traits.TryGetValue(trait, out var mine), other.Traits.TryGetValue(trait, out var theirs));
        var isNew = has ? !_places.ContainsKey((trait, mine!)) : trait == Trait.Job;
        return isNew && has == too && mine == theirs ? _spread[trait] * _spread[trait] : 0;
    });

    /// <summary>To begin with: the scatter within kinds, whatever else they differ by.</summary>
    private static double FirstVariance(IReadOnlyList<TimedWork> timed)
    {
        List<IReadOnlyList<double>> kinds = [.. timed.GroupBy(t => t.Work.Traits.GetValueOrDefault(Trait.Kind), t => t.LogRatio).Select(kind => (IReadOnlyList<double>)[.. kind])];
        var (within, known) = kinds.Count > 1 && timed.Count > kinds.Count ? (GroupScatter.Of(kinds).Within, timed.Count - kinds.Count) : (0, 0);
        return ((ScatterKnownAs * OwnScatter * OwnScatter) + within) / (ScatterKnownAs + known);
    }

    /// <summary>Offsets and how sure they are, for the spreads at hand.</summary>
    private (double[], double[,]) Solve(IReadOnlyList<TimedWork> timed)
    {
        var (precision, weighted) = (new double[_places.Count + 1, _places.Count + 1], new double[_places.Count + 1]);
        precision[0, 0] = 1 / (CommonDeviation * CommonDeviation);
        foreach (var ((trait, _), place) in _places)
        {
            precision[place, place] = 1 / (_spread[trait] * _spread[trait]);
        }

        foreach (var t in timed)
        {
            int[] places = [.. Places(t.Work)];
            foreach (var a in places)
            {
                weighted[a] += t.LogRatio / _variance;
                foreach (var b in places)
                {
                    precision[a, b] += 1 / _variance;
                }
            }
        }

        var covariance = Covariance.Of(precision);
        return ([.. weighted.Select((_, i) => weighted.Select((w, j) => covariance[i, j] * w).Sum())], covariance);
    }

    /// <summary>The spreads anew, from the offsets at hand.</summary>
    private void Learn(IReadOnlyList<TimedWork> timed)
    {
        var rest = timed.Select(t => t.LogRatio - Places(t.Work).Sum(place => _offsets[place])).ToArray();
        foreach (var trait in _spread.Keys.ToList())
        {
            var groups = timed.Select((t, i) => (t.Work, Left: rest[i])).Where(x => x.Work.Traits.ContainsKey(trait))
                .GroupBy(x => x.Work.Traits[trait], x => x.Left)
                .Select(group => (Mean: GroupStatistics.Of([.. group]).Mean + _offsets[_places[(trait, group.Key)]], Error: Math.Sqrt(_variance / group.Count()))).ToList();
            if (groups.Count > 0)
            {
                var pooled = PooledMeans.Of([.. groups.Select(g => g.Mean)], [.. groups.Select(g => g.Error)], CommonDeviation / 3, ScaleOf(trait));
                _spread[trait] = Math.Sqrt(pooled.MeanSquareSpread);
            }
        }

        var unsure = timed.Sum(t => Places(t.Work).Sum(a => Places(t.Work).Sum(b => _covariance[a, b])));
        _variance = ((ScatterKnownAs * OwnScatter * OwnScatter) + rest.Sum(r => r * r) + unsure) / (ScatterKnownAs + timed.Count);
    }
}

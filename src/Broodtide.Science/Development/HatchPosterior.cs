using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>An interval of days on the caller's axis.</summary>
/// <param name="FromDay">Start, days.</param>
/// <param name="ToDay">End, days.</param>
public readonly record struct DayWindow(double FromDay, double ToDay)
{
    /// <summary>Length, days.</summary>
    public double Days => ToDay - FromDay;

    /// <summary>Whether a day lies in the closed window.</summary>
    public bool Contains(double day) => day >= FromDay && day <= ToDay;
}

/// <summary>
/// The distribution of the day of the first hatch, on the caller's axis of days, with how it was reached.
/// </summary>
public sealed class HatchPosterior
{
    private readonly HatchGrid _grid;
    private readonly double[] _cumulative;

    private HatchPosterior(HatchGrid grid, double[] cumulative)
    {
        _grid = grid;
        _cumulative = cumulative;
        Mean = MeanOf(grid, cumulative);
        StandardDeviation = SdOf(grid, cumulative, Mean);
    }

    /// <summary>Mean hatch day.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation of the hatch day, days.</summary>
    public double StandardDeviation { get; }

    /// <summary>The 5, 50 and 95 % points of the hatch day.</summary>
    public Interval Days => Interval.FromPoints(Quantile(0.05), Quantile(0.5), Quantile(0.95));

    /// <summary>Median hatch day.</summary>
    public double Median => Quantile(0.5);

    /// <summary>The middle half: from the 25 to the 75 % point.</summary>
    public DayWindow Window50 => new(Quantile(0.25), Quantile(0.75));

    /// <summary>The middle nine tenths: from the 5 to the 95 % point.</summary>
    public DayWindow Window90 => new(Quantile(0.05), Quantile(0.95));

    /// <summary>The 5, 50 and 95 % points of the day of spawning.</summary>
    public required Interval SpawningDays { get; init; }

    /// <summary>
    /// Chance, given everything, that at least one look or entry is wrong. Near one where the facts contradict each
    /// other or lie far outside what the species does.
    /// </summary>
    public required Probability WrongLook { get; init; }

    /// <summary>Whether it is likelier than not that some look or entry is wrong: ask before relying on it.</summary>
    public bool IsContradictory => WrongLook.Value > 0.5;

    /// <summary>
    /// Whether the answer is only rough: the facts leave fewer than five cells of the grid, or the mass runs out of
    /// the grid, or the facts are a great surprise (less than one in ten thousand) to the prior.
    /// </summary>
    public required bool IsRough { get; init; }

    /// <summary>How many equal cells of the grid would be as uncertain as the answer (exponential of the entropy).</summary>
    public required double EffectiveCells { get; init; }

    /// <summary>
    /// Probability of all facts under the prior, 0 to 1, as a natural logarithm; very negative means a surprise.
    /// </summary>
    public required double LogEvidence { get; init; }

    /// <summary>
    /// Whether the eggs were dropped: nothing hatches on the female after <see cref="DroppedDay"/>, and the days
    /// speak of eggs that are kept moving off the mother.
    /// </summary>
    public bool IsOffMother => DroppedDay.HasValue;

    /// <summary>Day on which the eggs were dropped, if they were.</summary>
    public required double? DroppedDay { get; init; }

    /// <summary>What the forecast owes to temperatures that were assumed.</summary>
    public TemperatureReliance Temperature { get; private set; }

    /// <summary>First day with any mass to speak of; the grid starts here or before.</summary>
    public double FirstDay => _grid.Start;

    /// <summary>End of the grid.</summary>
    public double LastDay => _grid.Edge(_grid.Cells);

    /// <summary>Length of a cell of the grid, days.</summary>
    public double StepDays => _grid.Step;

    /// <summary>Probability that the first larvae are out by a day.</summary>
    /// <param name="day">Day on the caller's axis; any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public Probability ProbabilityBy(double day)
    {
        var place = (Finite.Required(day) - _grid.Start) / _grid.Step;
        if (place <= 0)
        {
            return default;
        }

        if (place >= _grid.Cells)
        {
            return Probability.FromFraction(1);
        }

        var index = (int)place;
        return Probability.FromFraction(
            _cumulative[index] + ((place - index) * (_cumulative[index + 1] - _cumulative[index]))
        );
    }

    /// <summary>
    /// Probability that the first hatch falls between two days; a night is asked for from noon to noon.
    /// </summary>
    /// <param name="fromDay">Start on the caller's axis.</param>
    /// <param name="toDay">End on the caller's axis, not before the start.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the end before the start.</exception>
    public Probability ProbabilityBetween(double fromDay, double toDay)
    {
        Finite.Within(toDay, Finite.Required(fromDay), double.MaxValue);
        return Probability.FromFraction(
            Math.Clamp(ProbabilityBy(toDay).Value - ProbabilityBy(fromDay).Value, 0, 1)
        );
    }

    /// <summary>The day by which the first larvae are out with a given probability.</summary>
    /// <param name="probability">0 to 1; linear within a cell.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or outside 0 to 1.</exception>
    public double Quantile(double probability)
    {
        Finite.Within(probability, 0, 1);
        var index = Array.BinarySearch(_cumulative, probability);
        if (index < 0)
        {
            index = ~index;
        }

        // Steps back over cells without mass, so that a quantile at the edge of a gap is one day, always the same.
        while (index > 1 && _cumulative[index - 1] >= probability)
        {
            index--;
        }

        index = Math.Clamp(index, 1, _grid.Cells);
        var mass = _cumulative[index] - _cumulative[index - 1];
        var share = mass > 0 ? (probability - _cumulative[index - 1]) / mass : 0;
        return _grid.Edge(index - 1) + (_grid.Step * Math.Clamp(share, 0, 1));
    }

    /// <summary>Expected value of a function of the hatch day, by the middles of the cells.</summary>
    internal double Expect(Func<double, double> value)
    {
        var sum = 0.0;
        for (var i = 0; i < _grid.Cells; i++)
        {
            var mass = _cumulative[i + 1] - _cumulative[i];
            if (mass > 0)
            {
                sum += mass * value(_grid.Middle(i));
            }
        }

        return sum;
    }

    internal static HatchPosterior From(
        EmbryoPrior prior,
        BroodEvidence evidence,
        BroodFact[] facts,
        TemperaturePath path,
        SpawningDay[] spawnings,
        HatchSums sums
    )
    {
        var total = sums.Posterior.Sum();
        var priorTotal = sums.PriorMass.Sum();
        // With every doubt switched off contradictory facts leave nothing; the prior then stands alone, and says so.
        var impossible = !(total > 0);
        var masses = impossible ? sums.PriorMass : sums.Posterior;
        var massTotal = impossible ? priorTotal : total;
        var cumulative = new double[masses.Length + 1];
        var entropy = 0.0;
        for (var i = 0; i < masses.Length; i++)
        {
            var mass = masses[i] / massTotal;
            cumulative[i + 1] = Math.Min(1, cumulative[i] + mass);
            entropy -= mass > 0 ? mass * Math.Log(mass) : 0;
        }

        cumulative[^1] = 1;
        var wrong = impossible
            ? 1
            : Math.Clamp(1 - (sums.Strict * NoError(prior.Looks, facts) / total), 0, 1);
        var cells = Math.Exp(entropy);
        var atEnd = masses[^5..].Sum() / massTotal;
        var logEvidence = impossible ? double.MinValue : Math.Log(total / priorTotal);
        var spawning = SpawningInterval(spawnings, impossible ? null : sums.BySpawning);
        var posterior = new HatchPosterior(sums.Grid, cumulative)
        {
            SpawningDays = spawning,
            WrongLook = Probability.FromFraction(wrong),
            EffectiveCells = cells,
            LogEvidence = logEvidence,
            IsRough = cells < 5 || atEnd > 0.002 || logEvidence < Math.Log(1e-4),
            DroppedDay = facts.OfType<BroodFact.Dropped>().FirstOrDefault()?.Day,
        };
        posterior.Temperature = TemperatureReliance.Of(
            prior,
            evidence,
            path,
            spawning.Middle,
            posterior.Median
        );
        return posterior;
    }

    /// <summary>Chance that none of the looks that were made is wrong, before anything is compared.</summary>
    private static double NoError(LookTrust trust, BroodFact[] facts)
    {
        var chance = facts.Any(fact => fact.ShowsEggs) ? 1 - trust.WrongEntry : 1;
        chance *= facts.Any(fact => fact is BroodFact.FirstLarvae) ? 1 - trust.WrongEntry : 1;
        foreach (var fact in facts)
        {
            chance *= fact switch
            {
                BroodFact.EggsLookedAt look => Math.Pow(
                    1 - trust.Misread,
                    (look.Eyed.HasValue ? 1 : 0) + (look.Pale.HasValue ? 1 : 0)
                ),
                BroodFact.SaddleSeen => 1 - trust.SaddleMisread,
                _ => 1,
            };
        }

        return chance
            * (facts.Any(f => f is BroodFact.EggsLookedAt { Pale: not null }) ? 1 - trust.Worthless : 1);
    }

    private static Interval SpawningInterval(SpawningDay[] spawnings, double[]? masses)
    {
        var ordered = spawnings
            .Select((spawning, i) => (spawning.Day, Mass: masses is null ? spawning.Weight : masses[i]))
            .OrderBy(candidate => candidate.Day)
            .ToArray();
        var total = ordered.Sum(candidate => candidate.Mass);
        double At(double share)
        {
            var sum = 0.0;
            foreach (var (day, mass) in ordered)
            {
                sum += mass / total;
                if (sum >= share)
                {
                    return day;
                }
            }

            return ordered[^1].Day;
        }

        return Interval.FromPoints(At(0.05), At(0.5), At(0.95));
    }

    private static double MeanOf(HatchGrid grid, double[] cumulative)
    {
        var mean = 0.0;
        for (var i = 0; i < grid.Cells; i++)
        {
            mean += (cumulative[i + 1] - cumulative[i]) * grid.Middle(i);
        }

        return mean;
    }

    private static double SdOf(HatchGrid grid, double[] cumulative, double mean)
    {
        var variance = 0.0;
        for (var i = 0; i < grid.Cells; i++)
        {
            var away = grid.Middle(i) - mean;
            variance += (cumulative[i + 1] - cumulative[i]) * away * away;
        }

        return Math.Sqrt(variance);
    }
}

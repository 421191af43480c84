using Broodtide.Units;
using Broodtide.Workbench.Losses;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>
/// What the record says of each cause. "Cannot be told" is the usual answer: a cause is ruled out only where readings
/// cover every phase with a loss and all lie within the limits, and it is spoken for only where one lay beyond.
/// </summary>
internal sealed class ReviewCauses
{
    // A phase counts as one with a loss where at least so much was lost with nineteen chances in twenty.
    private const double LeastLoss = 0.1;

    // So long without a reading may hide a day beyond the limit. Our choice, no source: salt creeps, the others jump.
    private const double SalinityGapDays = 4;
    private const double WarmthGapDays = 2;
    private const double AmmoniaGapDays = 3;
    private const double OxygenGapDays = 2;
    private const double FoodGapDays = 2;

    // Beyond their limits within so many days of each other is together.
    private static readonly Duration Together = Duration.FromDays(3);

    private static readonly LossPhase[] AtSea =
    [
        LossPhase.Crossing,
        LossPhase.Early,
        LossPhase.Middle,
        LossPhase.Metamorphosis,
    ];

    private readonly ReviewSpan _span;
    private readonly ReviewReadings _readings;
    private readonly IReadOnlyList<PhaseLoss> _lossy;
    private readonly List<CauseEvidence> _all = [];

    public ReviewCauses(ReviewSpan span, ReviewReadings readings, IReadOnlyList<PhaseLoss> phases)
    {
        (_span, _readings) = (span, readings);
        var reached = phases.Where(phase => phase.Known is not LossKnown.NotReached).ToList();
        var lost = reached.Where(phase => phase.LostShare is { Low: >= LeastLoss }).ToList();
        KnowsWhen = lost.Count > 0;
        // Where nobody knows when they were lost, it may have been in any phase.
        _lossy = KnowsWhen ? lost : reached;
        if (reached.Count == 0)
        {
            // No larvae, no loss.
            (Tied, Findings) = ([], []);
            return;
        }

        Delays();
        Water(LossCause.Salinity, SalinityGapDays, LimitedQuantity.Salinity);
        Water(LossCause.Warmth, WarmthGapDays, LimitedQuantity.Temperature);
        Water(
            LossCause.AmmoniaNitrite,
            AmmoniaGapDays,
            LimitedQuantity.UnionisedAmmonia,
            LimitedQuantity.Nitrite
        );
        Water(LossCause.Oxygen, OxygenGapDays, LimitedQuantity.Oxygen);
        Food();
        Crowding(phases);
        Others();
        Tied = [.. TiedOf()];
        Findings = [.. Ranked()];
    }

    /// <summary>Whether any phase lost for sure; else all phases are asked.</summary>
    public bool KnowsWhen { get; }

    /// <summary>The phases that are asked.</summary>
    public IEnumerable<LossPhase> Phases => _lossy.Select(phase => phase.Phase);

    public IReadOnlyList<TiedCauses> Tied { get; }

    public IReadOnlyList<CauseFinding> Findings { get; }

    private bool AnyLossAtSea => _lossy.Any(phase => AtSea.Contains(phase.Phase));

    private CauseEvidence About(LossCause cause)
    {
        var evidence = new CauseEvidence(cause);
        _all.Add(evidence);
        return evidence;
    }

    // What they suffered before the sea shows as late as in its first third.
    private void Delays()
    {
        var asked = _lossy.Any(phase =>
            phase.Phase is LossPhase.FreshWater or LossPhase.Crossing or LossPhase.Early
        );
        var fresh = About(LossCause.FreshWaterDelay);
        var brackish = About(LossCause.BrackishDelay);
        if (!asked)
        {
            NotInPhase(fresh);
            NotInPhase(brackish);
            return;
        }

        var crossings = _span.Brood.Crossings;
        var told = LossesBeforeVessel
            .Crossing(_span.Brood, _span.Profile, _span.Outlook.Zone)
            .Concat(LossesBeforeVessel.BeforeTheSea(_span.Brood, _span.Profile))
            .ToList();
        Of(fresh, "loss-crossed-late", crossings.Count);
        Of(brackish, "loss-long-brackish", crossings.Count);
        foreach (var never in told.Where(it => it.Shown.Code is "loss-never-crossed"))
        {
            fresh.For.Add(never.Shown);
            fresh.Beyond.Add((null, _span.Until));
        }

        void Of(CauseEvidence evidence, string code, int number)
        {
            var each = told.Where(it => it.Shown.Code == code).ToList();
            var worst = each.MaxBy(it => it.Ratio);
            if (worst is { Ratio: > 1 })
            {
                evidence.For.Add(worst.Shown);
                for (var i = 0; i < each.Count; i++)
                {
                    if (each[i].Ratio > 1)
                    {
                        evidence.Beyond.Add((null, crossings[Math.Min(i, crossings.Count - 1)].When.Middle));
                    }
                }
            }
            else if (worst is not null && each.Count == number)
            {
                evidence.Against.Add(worst.Shown);
                evidence.Covered = true;
            }
            else
            {
                evidence.Lacks.Add(new Remark("lack-crossing-times"));
            }
        }
    }

    // It acts where nothing was lost, or where the run did not come.
    private void NotInPhase(CauseEvidence evidence)
    {
        evidence.Against.Add(new Remark(KnowsWhen ? "against-not-in-phase" : "against-not-reached"));
        evidence.Covered = true;
    }

    private void Water(LossCause cause, double gapDays, params LimitedQuantity[] quantities)
    {
        var evidence = About(cause);
        if (!AnyLossAtSea)
        {
            NotInPhase(evidence);
            return;
        }

        evidence.Covered = true;
        foreach (var quantity in quantities)
        {
            foreach (var (stay, from, until) in Asked())
            {
                var read = _readings
                    .In(stay, quantity)
                    .Where(it =>
                        it.At >= from - Duration.FromDays(gapDays)
                        && it.At <= until + Duration.FromDays(gapDays)
                    )
                    .ToList();
                var within = read.Where(it => it.At >= from && it.At <= until).ToList();
                var beyond = within.Where(it => it.Lies is Lies.Outside).ToList();
                foreach (var one in beyond)
                {
                    evidence.Beyond.Add((stay.Vessel.Id, one.At));
                }

                if (beyond.Count > 0)
                {
                    evidence.For.Add(BeyondRemarks.Of(stay.Vessel.Id, beyond, within.Count));
                }

                if (within.Exists(it => it.Lies is Lies.AtTheLimit))
                {
                    evidence.Lacks.Add(
                        new Remark(
                            "lack-at-the-limit",
                            new Argument("quantity", quantity),
                            new Argument("vessel", stay.Vessel.Id)
                        )
                    );
                }

                var gap = ReviewReadings.GapDays(
                    read.Select(it => Instant.Max(from, Instant.Min(it.At, until))),
                    from,
                    until
                );
                if (within.Count == 0 || gap > gapDays)
                {
                    evidence.Lacks.Add(
                        new Remark(
                            within.Count == 0 ? "lack-never-read" : "lack-gap",
                            new Argument("quantity", quantity),
                            new Argument("vessel", stay.Vessel.Id),
                            new Argument("days", Math.Round(gap, 1)),
                            new Argument("limitDays", gapDays)
                        )
                    );
                }
                else if (beyond.Count == 0)
                {
                    evidence.Against.Add(
                        new Remark(
                            "against-within",
                            new Argument("quantity", quantity),
                            new Argument("vessel", stay.Vessel.Id),
                            new Argument("readings", within.Count),
                            new Argument("days", Math.Round(gap, 1))
                        )
                    );
                }
            }
        }
    }

    private void Food()
    {
        var missing = About(LossCause.FoodMissing);
        var much = About(LossCause.FoodTooMuch);
        if (!AnyLossAtSea)
        {
            NotInPhase(missing);
            NotInPhase(much);
            return;
        }

        foreach (var (stay, from, until) in Asked())
        {
            var fed = _span
                .Facts<Domain.Vessels.VesselFed>(stay.Vessel.Id, stay.From, until)
                .Where(told => told.Fact.Vessel == stay.Vessel.Id)
                .Select(told => told.When)
                .ToList();
            // Food that was given before the phase may last into it.
            var gap = ReviewReadings.GapDays(
                fed.Where(at => at >= from - Duration.FromDays(FoodGapDays))
                    .Select(at => Instant.Max(at, from)),
                from,
                until
            );
            if (gap > FoodGapDays)
            {
                missing.For.Add(
                    new Remark(
                        fed.Count == 0 ? "for-no-food-written" : "for-food-gap",
                        new Argument("vessel", stay.Vessel.Id),
                        new Argument("days", Math.Round(gap, 1)),
                        new Argument("limitDays", FoodGapDays)
                    )
                );
                missing.Beyond.Add((stay.Vessel.Id, from));
            }
            else
            {
                missing.Against.Add(
                    new Remark(
                        "against-fed",
                        new Argument("vessel", stay.Vessel.Id),
                        new Argument("feedings", fed.Count),
                        new Argument("days", Math.Round(gap, 1))
                    )
                );
            }
        }

        // That food was given does not say that they found or could eat it.
        missing.Lacks.Add(new Remark("lack-food-eaten"));
        var fouled = _all.Single(it => it.Cause is LossCause.AmmoniaNitrite);
        if (fouled.Verdict is CauseVerdict.SpokenFor)
        {
            much.For.Add(new Remark("for-fouled"));
            much.Beyond.AddRange(fouled.Beyond);
        }
        else if (fouled.Verdict is CauseVerdict.RuledOut)
        {
            much.Against.Add(new Remark("against-not-fouled"));
            much.Covered = true;
        }
        else
        {
            much.Lacks.Add(new Remark("lack-fouling-unread"));
        }
    }

    private void Crowding(IReadOnlyList<PhaseLoss> phases)
    {
        var evidence = About(LossCause.Crowding);
        if (!AnyLossAtSea)
        {
            NotInPhase(evidence);
            return;
        }

        var most = _span.Profile.LarvaePerLitre;
        var came = phases
            .Where(phase => AtSea.Contains(phase.Phase))
            .Select(phase => phase.Came)
            .OfType<Units.Interval>()
            .ToList();
        var litres = _span.Stays.Select(stay => LitresOf(stay)).ToList();
        if (came.Count == 0 || litres.Exists(it => it is null) || litres.Count == 0)
        {
            evidence.Lacks.Add(new Remark("lack-number-or-volume"));
            return;
        }

        // All in the smallest of the vessels is the worst that can have been.
        var worst = came.Max(it => it.High) / litres.Min()!.Value;
        var least = came.Max(it => it.Low) / litres.Sum()!.Value;
        var said = new[]
        {
            new Argument("leastPerLitre", Math.Round(least)),
            new Argument("mostPerLitre", Math.Round(worst)),
            new Argument("limitPerLitre", most),
        };
        if (worst <= most)
        {
            evidence.Against.Add(new Remark("against-not-crowded", said));
            evidence.Covered = true;
        }
        else if (least > most)
        {
            evidence.For.Add(new Remark("for-crowded", said));
            evidence.Beyond.Add((_span.Stays[0].Vessel.Id, _span.Stays[0].From));
        }
        else
        {
            evidence.Lacks.Add(new Remark("lack-crowding-unsure", said));
        }
    }

    private void Others()
    {
        var cues = About(LossCause.LateCues);
        if (_lossy.Any(phase => phase.Phase is LossPhase.Metamorphosis))
        {
            cues.Lacks.Add(new Remark("lack-cues"));
        }
        else
        {
            NotInPhase(cues);
        }

        About(LossCause.Disease).Lacks.Add(new Remark("lack-disease"));
        About(LossCause.Unknown).Lacks.Add(new Remark("lack-unknown"));
    }

    // Each vessel in each stretch of phases with a loss at sea, as far as larvae were there.
    private IEnumerable<(VesselTime Stay, Instant From, Instant Until)> Asked()
    {
        foreach (var (first, last) in Stretches())
        {
            foreach (var stay in _span.Stays)
            {
                var from = Instant.Max(stay.From, first);
                var until = Instant.Min(stay.Until, last);
                if (until > from)
                {
                    yield return (stay, from, until);
                }
            }
        }
    }

    // Phases that follow each other are one stretch.
    private List<(Instant From, Instant Until)> Stretches()
    {
        var stretches = new List<(Instant From, Instant Until)>();
        foreach (var phase in _lossy.Where(phase => AtSea.Contains(phase.Phase)))
        {
            var (from, until) = (phase.From ?? _span.From, phase.Until ?? _span.Until);
            if (stretches.Count > 0 && stretches[^1].Until >= from)
            {
                stretches[^1] = (stretches[^1].From, Instant.Max(stretches[^1].Until, until));
            }
            else
            {
                stretches.Add((from, until));
            }
        }

        return stretches;
    }

    private double? LitresOf(VesselTime stay) =>
        _span
            .Outlook.LedgersOf(stay.Vessel.Id)
            .SelectMany(ledger => ledger.Track)
            .Where(point => point.At >= stay.From && point.At <= stay.Until && point.Litres.Middle > 0.05)
            .Select(point => (double?)point.Litres.Middle)
            .Min();

    private IEnumerable<TiedCauses> TiedOf()
    {
        var spoken = _all.Where(it => it.Verdict is CauseVerdict.SpokenFor).ToList();
        var left = spoken.ToList();
        while (left.Count > 0)
        {
            // All that are tied to the first, directly or by others.
            List<CauseEvidence> group = [left[0]];
            left.RemoveAt(0);
            for (var i = 0; i < group.Count; i++)
            {
                var more = left.Where(it => Meet(group[i], it)).ToList();
                group.AddRange(more);
                left.RemoveAll(more.Contains);
            }

            if (group.Count > 1)
            {
                yield return new(
                    [.. group.Select(it => it.Cause)],
                    new Remark("tied-together", new Argument("limitDays", Together.TotalDays))
                );
            }
        }
    }

    private static bool Meet(CauseEvidence left, CauseEvidence right) =>
        left.Beyond.Exists(one =>
            right.Beyond.Exists(other =>
                (one.Vessel is null || other.Vessel is null || one.Vessel == other.Vessel)
                && (one.At > other.At ? one.At - other.At : other.At - one.At) <= Together
            )
        );

    private IEnumerable<CauseFinding> Ranked()
    {
        var tied = Tied.SelectMany(it => it.Causes).ToHashSet();
        var ranked = _all.Where(it =>
                it.Verdict is CauseVerdict.SpokenFor && it.Days >= 2 && !tied.Contains(it.Cause)
            )
            .OrderByDescending(it => it.Days)
            .ThenBy(it => it.Cause)
            .Select(it => it.Cause)
            .ToList();
        return _all.Select(it => new CauseFinding(
                it.Cause,
                it.Verdict,
                it.For,
                it.Against,
                it.Lacks,
                it.Days,
                ranked.IndexOf(it.Cause) is >= 0 and var place ? place + 1 : null
            ))
            .OrderBy(it =>
                it.Verdict switch
                {
                    CauseVerdict.SpokenFor => 0,
                    CauseVerdict.CannotBeTold => 1,
                    _ => 2,
                }
            )
            .ThenBy(it => it.Rank ?? int.MaxValue)
            .ThenBy(it => it.Cause);
    }
}

namespace Broodtide.Science.Development;

/// <summary>
/// What the facts say about the hatch day alone, whatever the age of the eggs: still carried, pale, a saddle, larvae
/// seen, gone, and the hours of the night. <see cref="Full"/> admits errors of looking; <see cref="Strict"/> is the
/// part of it in which no look was wrong.
/// </summary>
internal sealed class HatchDayLikelihood
{
    /// <summary>Looks closer than this, days, are one look with two remarks.</summary>
    private const double SameLookDays = 0.25;

    /// <summary>Chance that eggs said to be dropped had in truth begun to hatch a moment before; an assumption.</summary>
    private const double DropWasHatch = 0.4;

    private const double DropWasHatchDays = 1;

    private HatchDayLikelihood(double[] full, double[] strict)
    {
        Full = full;
        Strict = strict;
    }

    internal double[] Full { get; }

    internal double[] Strict { get; }

    /// <summary>On the middles of the cells of a grid.</summary>
    internal static HatchDayLikelihood Over(
        EmbryoPrior prior,
        BroodFact[] facts,
        double? midnightPhase,
        HatchGrid grid
    )
    {
        var trust = prior.Looks;
        var pale = PaleSign.From(facts, prior);
        var paleExact = PaleSign.From(
            facts,
            prior with
            {
                Looks = trust with { Misread = 0, Worthless = 0 },
            }
        );
        var saddles = facts.OfType<BroodFact.SaddleSeen>().ToArray();
        var saddle = Onset.From([.. saddles.Select(s => Onset.Look.Said(s.Day, true, trust.SaddleMisread))]);
        var saddleExact = Onset.From([.. saddles.Select(s => Onset.Look.Said(s.Day, true, 0))]);
        var larvae = facts.OfType<BroodFact.FirstLarvae>().MinBy(fact => fact.UntilDay);
        var carried = facts.Where(fact => fact.ShowsEggs).Reverse().Take(2).ToArray();
        var gone = GoneDay(facts);

        var full = new double[grid.Cells];
        var strict = new double[grid.Cells];
        for (var i = 0; i < grid.Cells; i++)
        {
            var day = grid.Middle(i);
            var night = NightFactor(prior, midnightPhase, day, grid.Step);
            full[i] = night * pale.Likelihood(day) * saddle.Likelihood(day, prior.SaddleLeadDays);
            strict[i] = night * paleExact.Likelihood(day) * saddleExact.Likelihood(day, prior.SaddleLeadDays);
            full[i] *= Carried(carried, day, trust, 0);
            strict[i] *= carried.Length == 0 ? 1 : AfterLook(carried[0], day, trust);
            if (larvae is not null)
            {
                var inside = day >= larvae.Day - grid.Step && day <= larvae.UntilDay + grid.Step;
                full[i] *= inside ? 1 - trust.WrongEntry : trust.WrongEntry;
                strict[i] *= inside ? 1 : 0;
            }

            if (larvae is null && gone is { } goneDay)
            {
                // Eggs gone unseen may also have been dropped, so a later hatch is not nothing.
                full[i] *= day <= goneDay ? 1 : Math.Max(trust.EmptyMisread, trust.WrongEntry);
                strict[i] *= day <= goneDay ? 1 : 0;
            }
        }

        return new(full, strict);
    }

    /// <summary>The eggs last seen carried, unless that entry is wrong: then those seen before.</summary>
    private static double Carried(BroodFact[] latestFirst, double day, LookTrust trust, int place) =>
        place == latestFirst.Length
            ? 1
            : ((1 - trust.WrongEntry) * AfterLook(latestFirst[place], day, trust))
                + (trust.WrongEntry * Carried(latestFirst, day, trust, place + 1));

    private static double AfterLook(BroodFact fact, double day, LookTrust trust)
    {
        var since = fact.Day - day;
        return since <= 0 ? 1
            : fact is BroodFact.Dropped && trust.CarriesAfterFirstHatch > 0
                ? DropWasHatch * Math.Exp(-since / DropWasHatchDays)
            : trust.CarriesAfterFirstHatch * Math.Exp(-since / trust.CarriesAfterFirstHatchDays);
    }

    private static double? GoneDay(BroodFact[] facts)
    {
        var first = facts.FirstOrDefault(fact => fact.ShowsEggs);
        return first is null
            ? null
            : facts.FirstOrDefault(fact => fact is BroodFact.SeenEmpty && fact.Day > first.Day)?.Day;
    }

    private static double NightFactor(EmbryoPrior prior, double? midnightPhase, double day, double step)
    {
        if (midnightPhase is not { } phase)
        {
            return 1;
        }

        var fromMidnight = Math.Abs(day - phase - Math.Round(day - phase));
        // A cell across dusk or dawn is dark in part.
        var dark = Math.Clamp(((prior.DarkDays / 2) - fromMidnight + (step / 2)) / step, 0, 1);
        return (dark * prior.NightShare.Value / prior.DarkDays)
            + ((1 - dark) * prior.NightShare.Opposite / (1 - prior.DarkDays));
    }

    /// <summary>
    /// Pale eggs. A look that speaks of eyes but not of colour is weak evidence that they were not pale, for a keeper
    /// who notes pale eggs; another keeper never notes them.
    /// </summary>
    private sealed class PaleSign
    {
        private readonly LognormalSpread _lead;
        private readonly LookTrust _trust;
        private readonly Onset _said;
        private readonly Onset _withSilence;
        private readonly double _byChance;

        private PaleSign(EmbryoPrior prior, List<Onset.Look> said, List<Onset.Look> withSilence)
        {
            _lead = prior.PaleLeadDays;
            _trust = prior.Looks;
            _said = Onset.From(said);
            _withSilence = Onset.From(withSilence);
            _byChance = Math.Pow(0.5, said.Count);
        }

        internal static PaleSign From(BroodFact[] facts, EmbryoPrior prior)
        {
            var looks = facts.OfType<BroodFact.EggsLookedAt>().ToArray();
            var spoken = looks.Where(look => look.Pale.HasValue).ToArray();
            var firstPale = spoken.FirstOrDefault(look => look.Pale == true)?.Day ?? double.PositiveInfinity;
            List<Onset.Look> said = [];
            List<Onset.Look> withSilence = [];
            foreach (var look in looks)
            {
                if (look.Pale is { } pale)
                {
                    var spokenLook = Onset.Look.Said(look.Day, pale, prior.Looks.Misread);
                    said.Add(spokenLook);
                    withSilence.Add(spokenLook);
                }
                else if (
                    look.Day < firstPale
                    && !spoken.Any(other => Math.Abs(other.Day - look.Day) < SameLookDays)
                )
                {
                    withSilence.Add(new(look.Day, 1, prior.Looks.OverlooksPale));
                }
            }

            return new(prior, said, withSilence);
        }

        internal double Likelihood(double hatchDay) =>
            (_trust.Worthless * _byChance)
            + (
                (1 - _trust.Worthless)
                * (
                    ((1 - _trust.NotesPale) * _said.Likelihood(hatchDay, _lead))
                    + (_trust.NotesPale * _withSilence.Likelihood(hatchDay, _lead))
                )
            );
    }
}

using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Safety.Advising;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Workbench.BadDays;

/// <summary>What a helper gives each day: what the advice lets give and what the keeper gives, the less of the two.</summary>
internal static class AwayDoses
{
    /// <summary>Less than this a day is not worth a helper's hand, mL.</summary>
    public const double LeastMillilitres = 5;

    // The same of dry food.
    private const double LeastMilligrams = 0.5;

    // A powder of which nothing was said.
    private const double UsualProtein = 0.45;

    public static IEnumerable<AwayPortion> Of(
        Outlook outlook,
        AdviceOfDay advice,
        WhatIfGround? ground,
        double factor
    )
    {
        foreach (var ration in advice.Lines.OfType<Advice.Ration>())
        {
            var usual = ground is null ? double.PositiveInfinity : UsualMilligrams(ground);
            var milligrams = factor * Math.Min(ration.SafeMilligrams.Low, usual);
            if (milligrams >= LeastMilligrams)
            {
                yield return new(ration.Food, ration.Feed, Math.Round(milligrams, 1), null);
            }
        }

        if (advice.Lines.OfType<Advice.Algae>().FirstOrDefault() is not { } algae)
        {
            yield break;
        }

        var cells = Math.Max(ground is null ? 0 : UsualCells(ground), algae.Cells.Middle);
        var culture = algae.Culture ?? CultureOf(outlook);
        if (
            culture is { } from
            && GreenWater.Of(outlook.House, from, outlook.Now).CellsPerMillilitre is > 0 and var density
            && factor * cells / density is >= LeastMillilitres and var millilitres
        )
        {
            yield return new(
                FoodKind.GreenWater,
                outlook.House.Vessel(from).Name,
                null,
                5 * Math.Round(millilitres / 5)
            );
        }
    }

    public static IReadOnlyList<WhatIfChange> AsChanges(
        Outlook outlook,
        WhatIfGround ground,
        ImmutableArray<AwayPortion> portions
    )
    {
        // One kind of food each day can be tried: the green water, or the dry food that weighs most.
        if (
            portions.FirstOrDefault(one => one.Millilitres is > 0) is { Millilitres: { } millilitres } green
            && outlook.House.Vessels.FirstOrDefault(vessel => vessel.Name == green.Name) is { } culture
            && portions.Length == 1
        )
        {
            var density = GreenWater.Of(outlook.House, culture.Id, outlook.Now).CellsPerMillilitre;
            return
            [
                new WhatIfChange.AlgaeEachDay(
                    Math.Min(
                        WhatIfRules.MostCellsPerMillilitre,
                        millilitres * density / (1000 * ground.AsItIs.Hours[ground.Members.Hour].Water.Litres)
                    )
                ),
            ];
        }

        var dry = portions.Sum(one => one.DryMilligrams ?? 0);
        return dry > 0
            ?
            [
                new WhatIfChange.FoodEachDay(
                    dry,
                    ground
                        .AsItIs.Events.OfType<VesselEvent.Fed>()
                        .Select(done => done.Composition)
                        .LastOrDefault()
                        ?? FeedComposition.Powder(Probability.FromFraction(UsualProtein))
                ),
            ]
            : [new WhatIfChange.FeedTimes(0)];
    }

    private static VesselId? CultureOf(Outlook outlook) =>
        outlook
            .House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && vessel.Standing is not null
            )
            .Select(vessel => (VesselId?)vessel.Id)
            .FirstOrDefault();

    private static double UsualMilligrams(WhatIfGround ground)
    {
        var fed = ground
            .AsItIs.Events.Where(done => done.Hour >= ground.Members.Hour)
            .OfType<VesselEvent.Fed>()
            .Sum(done => done.DryMass.Milligrams);
        return fed > 0 ? fed / ground.Days : double.PositiveInfinity;
    }

    private static double UsualCells(WhatIfGround ground) =>
        ground
            .AsItIs.Events.Where(done => done.Hour >= ground.Members.Hour)
            .OfType<VesselEvent.AlgaeGiven>()
            .Sum(done => done.Cells) / ground.Days;
}

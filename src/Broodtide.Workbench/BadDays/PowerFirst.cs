using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.BadDays;

/// <summary>What to do first without mains, or with a dead pump.</summary>
internal static class PowerFirst
{
    // Stirred at half of the earliest time that was worked out, between half an hour and four hours (this project's choice).
    private const double LeastStirHours = 0.5;

    private const double MostStirHours = 4;

    public static IEnumerable<Remark> OfMains(
        ImmutableArray<VesselBreath> vessels,
        IReadOnlyCollection<Remark> untold,
        Outlook outlook
    )
    {
        foreach (var remark in Worst(vessels, untold))
        {
            yield return remark;
        }

        yield return new Remark("badday-power-no-food");
        yield return Stir(vessels, untold);
        yield return new Remark("badday-power-battery");
        yield return new Remark("badday-power-lids");
        if (vessels.FirstOrDefault(one => one.ToCold?.Chance.Value >= 0.05) is { ToCold: { } cold } chilled)
        {
            yield return new Remark(
                "badday-power-cold",
                new("vessel", chilled.Vessel),
                new("hours", Math.Round(cold.MiddleHours ?? cold.EarlyHours ?? cold.HorizonHours, 1))
            );
        }

        if (
            outlook.House.Vessels.Any(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && vessel.Standing is not null
            )
        )
        {
            yield return new Remark("badday-power-cultures");
        }

        yield return new Remark("badday-sponge-stands");
        yield return new Remark("badday-power-after");
    }

    public static IEnumerable<Remark> OfPump(
        ImmutableArray<VesselBreath> vessels,
        IReadOnlyCollection<Remark> untold
    )
    {
        foreach (var remark in Worst(vessels, untold))
        {
            yield return remark;
        }

        yield return new Remark("badday-pump-look");
        yield return new Remark("badday-pump-borrow");
        yield return Stir(vessels, untold);
        yield return new Remark("badday-power-no-food");
        yield return new Remark("badday-sponge-stands");
        yield return new Remark("badday-pump-above");
    }

    private static IEnumerable<Remark> Worst(
        ImmutableArray<VesselBreath> vessels,
        IReadOnlyCollection<Remark> untold
    )
    {
        if (vessels.IsEmpty)
        {
            if (untold.Count == 0)
            {
                yield return new Remark("badday-nothing-breathes");
            }
        }
        else if (vessels[0] is { ToDanger: { EarlyHours: not null } soon } worst)
        {
            yield return new Remark(
                "badday-breath-first",
                new("vessel", worst.Vessel),
                new("hours", Math.Round(soon.MiddleHours ?? soon.EarlyHours ?? soon.HorizonHours, 1)),
                new("earlyHours", Math.Round(soon.EarlyHours ?? soon.HorizonHours, 1)),
                new("chance", soon.Chance.Value)
            );
        }
        else
        {
            yield return new Remark(
                "badday-breath-holds",
                new Argument("hours", vessels[0].ToDanger.HorizonHours)
            );
        }

        foreach (var remark in untold)
        {
            yield return remark;
        }
    }

    private static Remark Stir(ImmutableArray<VesselBreath> vessels, IReadOnlyCollection<Remark> untold)
    {
        // A vessel of which no hours are told may be the first.
        var early = vessels
            .Select(one => one.ToDanger.EarlyHours ?? Breath.Horizon)
            .Concat(untold.Select(_ => 0.0))
            .DefaultIfEmpty(Breath.Horizon)
            .Min();
        return new(
            "badday-power-stir",
            new Argument(
                "everyHours",
                Math.Round(2 * Math.Clamp(early / 2, LeastStirHours, MostStirHours)) / 2
            )
        );
    }
}

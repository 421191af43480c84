using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Losses;

/// <summary>What can have harmed larvae in the water they lived in: ammonia, warmth, salt.</summary>
internal static class LossesByWater
{
    // One degree or one ppt beyond a limit counts as much as half the limit of another quantity.
    private const double BeyondStep = 2;

    public static IEnumerable<LossSuspect> Ammonia(LarvaStay stay, SpeciesProfile profile)
    {
        var limit = profile.SafetyLimits.UnionisedAmmoniaNitrogen.MilligramsPerLitre;
        var totalLimit = profile.Find("total-ammonia-nitrogen-limit")?.High;
        LossSuspect? worst = null;
        var read = false;
        foreach (var (_, reading) in stay.Facts<ReadingTaken>())
        {
            if (AmmoniaReading.Of(reading.Value) is not { } said)
            {
                continue;
            }

            read = true;
            var isTotal = said.Form is AmmoniaForm.TotalAsNitrogen or AmmoniaForm.TotalAsAmmonium;
            var nitrogen = said.Form switch
            {
                AmmoniaForm.TotalAsAmmonium => said.Amount.MilligramsPerLitre
                    * AmmoniaMeaning.NitrogenOfAmmonium,
                AmmoniaForm.UnionisedAsAmmonia => Science
                    .Water.Ammonia.AsNitrogen(said.Amount)
                    .MilligramsPerLitre,
                _ => said.Amount.MilligramsPerLitre,
            };
            if ((isTotal ? totalLimit : limit) is not ({ } most and > 0))
            {
                continue;
            }

            var suspect = new LossSuspect(
                nitrogen / most,
                new Remark(
                    "loss-ammonia",
                    new("form", isTotal ? "total" : "unionised"),
                    new("milligramsPerLitre", nitrogen),
                    new("limitMilligramsPerLitre", most)
                ),
                new Remark("change-feed-less-and-change-water")
            );
            worst = worst is null || suspect.Ratio > worst.Ratio ? suspect : worst;
        }

        // The twin of a vessel that still stands tells what nobody measured.
        var ahead = stay
            .Outlook.SafetyAtHand(stay.Vessel.Id)
            ?.Limits.FirstOrDefault(told => told.Limit.Quantity is LimitedQuantity.UnionisedAmmonia);
        if (ahead is { CrossedNow: var chance } && chance.Value > 0.5)
        {
            yield return new(
                1 + chance.Value,
                new Remark("loss-ammonia-likely", new Argument("chance", chance.Value)),
                new Remark("change-feed-less-and-change-water")
            );
        }

        if (worst is not null)
        {
            yield return worst;
        }
        else if (!read)
        {
            yield return new(
                LossSuspects.NotExcluded,
                new Remark("loss-ammonia-never-measured"),
                new Remark("change-measure-ammonia")
            );
        }
    }

    public static IEnumerable<LossSuspect> Warmth(LarvaStay stay, SpeciesProfile profile)
    {
        var limits = profile
            .LimitsFor(LifeStage.EarlyZoea)
            .Where(limit => limit.Quantity is LimitedQuantity.Temperature)
            .ToList();
        foreach (var (_, reading) in stay.Facts<ReadingTaken>())
        {
            if (reading.Value.AsTemperature() is not { } read)
            {
                continue;
            }

            foreach (var limit in limits)
            {
                var beyond = limit.IsUpper ? read.Celsius - limit.Value : limit.Value - read.Celsius;
                if (beyond > 0)
                {
                    yield return new(
                        1 + (beyond / BeyondStep),
                        new Remark(
                            limit.IsUpper ? "loss-too-warm" : "loss-too-cold",
                            new("celsius", read.Celsius),
                            new("limitCelsius", limit.Value)
                        ),
                        new Remark(limit.IsUpper ? "change-cooler-place" : "change-steady-warmth")
                    );
                }
            }
        }
    }

    public static IEnumerable<LossSuspect> Salt(LarvaStay stay, SpeciesProfile profile)
    {
        var band = profile.LarvalSalinityBand;
        var (low, high) = (band.Low.Practical, band.High.Practical);
        var points = stay
            .Outlook.LedgersOf(stay.Vessel.Id)
            .SelectMany(ledger => ledger.Track)
            .Where(point => point.At >= stay.Since && point.At <= stay.Until)
            .ToList();
        if (points.Count == 0)
        {
            yield break;
        }

        var lowest = points.MinBy(point => point.SalinityPpt.Middle).SalinityPpt.Middle;
        var highest = points.MaxBy(point => point.SalinityPpt.Middle).SalinityPpt.Middle;
        var beyond = Math.Max(low - lowest, highest - high);
        if (beyond > 0)
        {
            yield return new(
                1 + (beyond / BeyondStep),
                new Remark(
                    "loss-salinity-outside",
                    new("lowestPpt", lowest),
                    new("highestPpt", highest),
                    new("bandLowPpt", low),
                    new("bandHighPpt", high)
                ),
                new Remark("change-top-up-every-day")
            );
        }
    }
}

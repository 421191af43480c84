using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.Recording;

/// <summary>What is improbable about cells, light and what is weighed.</summary>
internal static class FoodDoubts
{
    // Nannochloropsis, the densest of cultures, is harvested at 1e7 to 6e7 a millilitre: practice, from memory.
    private const double DensestPerMillilitre = 3e8;

    // A litre for a millilitre is a thousand times off; counts of one culture differ by ten over a few days.
    private const double ThousandfoldFrom = 200;
    private const double ThousandfoldTo = 5000;

    // Full sun at noon: about 100 klx, and about 2000 umol/m2/s of photons that algae use. Practice.
    private const double SunLux = 100_000;
    private const double SunMicromoles = 2000;

    // Dry food above half a gram a litre fouls any vessel; salt dissolves up to some 350 g in a litre. Practice.
    private const double MostFoodMilligramsPerLitre = 500;
    private const double MostMixGramsPerLitre = 350;
    private const double MostFoodMilligrams = 20_000;
    private const double MostMixGrams = 25_000;

    public static Question? Cells(Fact fact, string name, TypedNumber number, Happened happened, House house)
    {
        const string Code = "cells-thousandfold";
        if (number.Value > DensestPerMillilitre)
        {
            return number.Value / 1000 <= DensestPerMillilitre
                ? NumberDoubts.Ask(fact, name, number, Code, number.Value / 1000)
                : NumberDoubts.Ask(fact, name, number, "cells-improbable");
        }

        return
            number.Value > 0
            && CultureOf(fact, name) is { } vessel
            && CellsSeen.Last(house, vessel, happened.Earliest) is { PerMillilitre: > 0 and var last }
            ? (number.Value / last) switch
            {
                >= ThousandfoldFrom and <= ThousandfoldTo => NumberDoubts.Ask(
                    fact,
                    name,
                    number,
                    Code,
                    number.Value / 1000
                ),
                >= 1 / ThousandfoldTo and <= 1 / ThousandfoldFrom => NumberDoubts.Ask(
                    fact,
                    name,
                    number,
                    Code,
                    number.Value * 1000
                ),
                _ => null,
            }
            : null;
    }

    public static Question? Light(Fact fact, string name, TypedNumber number) =>
        number.Unit == "lx"
            ? number.Value > SunLux
                ? NumberDoubts.Ask(fact, name, number, "light-above-the-sun")
                : null
            : number.Value > SunMicromoles
                ? NumberDoubts.Ask(
                    fact,
                    name,
                    number,
                    "light-above-the-sun",
                    unit: number.Value <= SunLux ? "lx" : null
                )
                : null;

    public static Question? Mass(Fact fact, string name, TypedNumber number, House house)
    {
        var grams = ((TypedNumber?)number).AsMass()?.Grams ?? 0;
        var (vessel, most) = (fact, name) switch
        {
            (VesselFed fed, "mass") => (
                fed.Vessel,
                house.Vessel(fed.Vessel).Capacity is { Litres: > 0 and var litres }
                    ? MostFoodMilligramsPerLitre * litres / 1000
                    : MostFoodMilligrams / 1000
            ),
            (WaterMoved { To: { } to }, "mix") => (
                to,
                house.Vessel(to).Capacity is { Litres: > 0 and var litres }
                    ? MostMixGramsPerLitre * litres
                    : MostMixGrams
            ),
            _ => ((VesselId?)null, double.PositiveInfinity),
        };
        if (vessel is null || grams <= most)
        {
            return null;
        }

        var smaller = number.Unit switch
        {
            "kg" => "g",
            "g" => "mg",
            _ => null,
        };
        return NumberDoubts.Ask(
            fact,
            name,
            number,
            "mass-improbable",
            null,
            fact is VesselFed && smaller is not null && grams / 1000 <= most ? smaller : null
        );
    }

    private static VesselId? CultureOf(Fact fact, string name) =>
        (fact, name) switch
        {
            (ReadingTaken reading, "value") => reading.Vessel,
            (CultureHarvested harvested, "density") => harvested.Vessel,
            (VesselFed { From: { } from }, "density") => from,
            (CultureDescribed { From: { } from }, "inoculumDensity") => from,
            _ => null,
        };
}

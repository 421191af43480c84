using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Recording;

/// <summary>What is improbable about a salinity on any scale.</summary>
internal static class SalinityDoubts
{
    /// <summary>Highest practical salinity that is not asked about.</summary>
    public const double Highest = 45;

    // Water salter than this is sea water to a keeper: the lowest salinity larvae completed in is 17.
    private const double SeaFrom = 15;

    public static Question? About(
        Fact fact,
        string name,
        TypedNumber number,
        Happened happened,
        House house
    ) =>
        number.Unit.StartsWith("sal:sg", StringComparison.Ordinal)
            ? Gravity(fact, name, number, house)
            : Number(fact, name, number, happened, house);

    private static Question? Gravity(Fact fact, string name, TypedNumber number, House house)
    {
        var value = number.Value;
        if (value is >= 900 and <= 1200)
        {
            return NumberDoubts.Ask(fact, name, number, "gravity-thousandfold", value / 1000);
        }

        if (value is > 1.5 and <= Highest)
        {
            return NumberDoubts.Ask(
                fact,
                name,
                number,
                "salinity-said-as-gravity",
                value,
                UnitCode.PracticalSalinity
            );
        }

        if (value is < 0.99 or > 1.04)
        {
            return NumberDoubts.Ask(fact, name, number, "gravity-improbable");
        }

        // With an instrument whose scale names them, the reference temperatures are known.
        if (number.Unit != "sal:sg" || ScaleOf(fact, house) is not null)
        {
            return null;
        }

        var if25 = ScaledSalinity.FromUnit(value, "sal:sg-25/25")!.Value.Reference!.Value;
        var meanings = ReadingMeanings
            .IfReference(value, null)
            .Where(meaning => meaning.Salinity is not null)
            .Select(meaning => (meaning.Reference, meaning.Salinity!.Value.Practical))
            .ToList();
        return meanings.Count == 0
            ? NumberDoubts.Ask(fact, name, number, "gravity-improbable")
            : NumberDoubts.Ask(
                fact,
                name,
                number,
                "gravity-without-references",
                null,
                null,
                new("lowestPpt", meanings.Min(meaning => meaning.Practical)),
                new("highestPpt", meanings.Max(meaning => meaning.Practical)),
                new(
                    "at25Ppt",
                    meanings.Where(m => m.Reference == if25).Select(m => m.Practical).FirstOrDefault()
                )
            );
    }

    private static string? ScaleOf(Fact fact, House house) =>
        fact is ReadingTaken { Instrument: { } instrument }
        && house.Instrument(instrument).Description?.Scale is { } scale
        && scale.StartsWith("sal:sg-", StringComparison.Ordinal)
            ? scale
            : null;

    private static Question? Number(
        Fact fact,
        string name,
        TypedNumber number,
        Happened happened,
        House house
    )
    {
        var practical = number.Unit == UnitCode.PracticalSalinity;
        if (practical && number.Value is >= 900 and <= 1200)
        {
            return NumberDoubts.Ask(
                fact,
                name,
                number,
                "gravity-thousandfold",
                number.Value / 1000,
                "sal:sg"
            );
        }

        if (practical && number.Value is > 0.99 and < 1.04 && HasThreeFigures(number.Typed))
        {
            return NumberDoubts.Ask(fact, name, number, "gravity-said-as-salinity", number.Value, "sal:sg");
        }

        if (
            practical
            && number.Value is >= 7 and <= 9
            && fact is ReadingTaken { Vessel: { } vessel }
            && IsSea(house.Vessel(vessel), happened)
        )
        {
            return NumberDoubts.Ask(fact, name, number, "ph-said-as-salinity", number.Value, "[pH]");
        }

        return Practical(number) is not { } salinity || salinity > Highest
            ? TooSalty(fact, name, number, practical)
            : null;
    }

    private static Question TooSalty(Fact fact, string name, TypedNumber number, bool practical) =>
        practical && number.Value is > 100 and < 10 * Highest && !number.Typed.Contains('.')
            ? NumberDoubts.Ask(fact, name, number, "salinity-improbable", number.Value / 10)
        : practical && number.Value is > Highest and <= 62
            ? NumberDoubts.Ask(fact, name, number, "salinity-improbable", number.Value, "sal:mS/cm-25")
        : NumberDoubts.Ask(fact, name, number, "salinity-improbable");

    private static double? Practical(TypedNumber number) =>
        ScaledSalinity.FromUnit(number.Value, number.Unit) is { } said
            ? OtherScales
                .ToPractical(said, Temperature.FromCelsius(25), SaltProduct.Unmeasured)
                ?.Value.Practical
            : null;

    // A specific gravity is typed with three figures after the mark, a salinity is not.
    private static bool HasThreeFigures(string typed) =>
        typed.IndexOfAny(['.', ',']) is var at and >= 0
        && typed.AsSpan(at + 1).IndexOfAnyExceptInRange('0', '9') is var end
        && (end < 0 ? typed.Length - at - 1 : end) >= 3;

    // What the vessel was last said to hold; what it is for where nobody said.
    private static bool IsSea(Vessel vessel, Happened happened)
    {
        double? last = null;
        foreach (var occurrence in vessel.FillAt(happened.Middle)?.Occurrences ?? [])
        {
            var said = occurrence.Fact switch
            {
                VesselFilled { From: null } filled => filled.Salinity
                    ?? TypedNumber.Of(0, UnitCode.PracticalSalinity),
                ReadingTaken reading => reading.Value,
                _ => null,
            };
            if (
                occurrence.Happened.Earliest <= happened.Latest
                && said is not null
                && Practical(said) is { } practical
            )
            {
                last = practical;
            }
        }

        return last is { } salinity ? salinity >= SeaFrom : vessel.Role is VesselRole.LarvalVessel;
    }
}

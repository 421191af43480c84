using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>What is improbable about the typed numbers of a fact.</summary>
internal static class NumberDoubts
{
    public static IEnumerable<Question> Of(Fact fact, Happened happened, House house)
    {
        var asked = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (name, number, _) in fact.Numbers())
        {
            // A number that is confirmed already, or that is none, is not asked about.
            if (number is null or { Doubted: true } || !double.IsFinite(number.Value) || !asked.Add(name))
            {
                continue;
            }

            if (AboutNumber(fact, name, number, happened, house) is { } question)
            {
                yield return question;
            }
        }
    }

    // One question a number: the first that fits is the one whose answer settles most.
    private static Question? AboutNumber(
        Fact fact,
        string name,
        TypedNumber number,
        Happened happened,
        House house
    ) =>
        number.KnownUnit()?.Dimension switch
        {
            Dimension.Salinity => SalinityDoubts.About(fact, name, number, happened, house),
            Dimension.Acidity => Acidity(fact, name, number),
            Dimension.Temperature => Temperature(fact, name, number),
            Dimension.Volume => Volume(fact, name, number, house),
            Dimension.CellDensity => FoodDoubts.Cells(fact, name, number, happened, house),
            Dimension.Light => FoodDoubts.Light(fact, name, number),
            Dimension.Mass => FoodDoubts.Mass(fact, name, number, house),
            _ => null,
        } ?? TwoReadings(fact, name, number);

    /// <summary>A question with the same fact, but for one number, as its likelier meaning.</summary>
    public static Question Ask(
        Fact fact,
        string name,
        TypedNumber number,
        string code,
        double? likelier = null,
        string? unit = null,
        params ReadOnlySpan<Argument> more
    )
    {
        var meant = likelier ?? number.Value;
        Argument[] arguments =
        [
            new("field", name),
            new("typed", number.Typed),
            new("value", number.Value),
            new("unit", number.Unit),
            .. more,
        ];
        return likelier is null && unit is null
            ? new Question(new Remark(code, arguments), name)
            : new Question(
                new Remark(
                    code,
                    [.. arguments, new("likelierValue", meant), new("likelierUnit", unit ?? number.Unit)]
                ),
                name,
                // The text is what was typed for ever; only what is understood by it changes.
                fact.WithNumber(name, n => n with { Value = meant, Unit = unit ?? n.Unit })
            );
    }

    private static Question? TwoReadings(Fact fact, string name, TypedNumber number) =>
        AmountText.OtherReading(number) is { } other
            ? Ask(fact, name, number, "number-has-two-readings", other)
            : null;

    private static Question? Acidity(Fact fact, string name, TypedNumber number) =>
        number.Value is >= 15 and <= 45
            ? Ask(fact, name, number, "salinity-said-as-ph", number.Value, UnitCode.PracticalSalinity)
        : number.Value is > 45 and <= 140 ? Ask(fact, name, number, "ph-improbable", number.Value / 10)
        : number.Value is < 5 or > 10 ? Ask(fact, name, number, "ph-improbable")
        : null;

    // Water that anything here lives in: practice, no source. A calibration and a heater are told in the same words.
    private const double WarmestCelsius = 38;
    private const double ColdestFahrenheit = 45;

    private static Question? Temperature(Fact fact, string name, TypedNumber number) =>
        number.Unit == "Cel"
            ? number.Value < 0
                ? Ask(fact, name, number, "temperature-below-zero", -number.Value)
                : number.Value > 110 && HasNoFraction(number.Typed)
                    ? Ask(fact, name, number, "temperature-improbable", number.Value / 10)
                    : number.Value >= 50
                        ? Ask(fact, name, number, "fahrenheit-said-as-celsius", null, "[degF]")
                        : number.Value > WarmestCelsius
                            ? Ask(fact, name, number, "temperature-improbable")
                            : null
            : number.Value < ColdestFahrenheit
                ? number.Value is > 4 and <= WarmestCelsius
                    ? Ask(fact, name, number, "celsius-said-as-fahrenheit", null, "Cel")
                    : Ask(fact, name, number, "temperature-improbable")
                : number.Value > 100
                    ? Ask(fact, name, number, "temperature-improbable")
                    : null;

    private static bool HasNoFraction(string typed) => !typed.Contains('.') && !typed.Contains(',');

    // The largest container this is made for holds 60 L; a rack of them some hundred.
    private const double LargestLitres = 500;

    private static Question? Volume(Fact fact, string name, TypedNumber number, House house)
    {
        var litres = ((TypedNumber?)number).AsVolume()?.Litres ?? 0;
        var capacity = VesselsFilled(fact, name)
            .Select(vessel => house.Vessel(vessel).Capacity?.Litres)
            .Min();
        var most = capacity ?? LargestLitres;
        if (litres <= most * 1.1)
        {
            return null;
        }

        var code = capacity is null ? "volume-improbable" : "volume-over-capacity";
        var inMillilitres = number.Unit == "L" && number.Value / 1000 <= most;
        return Ask(
            fact,
            name,
            number,
            code,
            null,
            inMillilitres ? "mL" : null,
            new Argument("capacityLitres", most)
        );
    }

    // The vessels that must hold the volume at one time.
    private static IEnumerable<Domain.VesselId> VesselsFilled(Fact fact, string name) =>
        (fact, name) switch
        {
            (VesselFilled filled, "volume") => [filled.Vessel],
            (WaterMoved { To: { } to, From: { } from }, "volume") => [to, from],
            (WaterMoved { To: { } to }, "volume") => [to],
            (WaterMoved { From: { } from, Evaporated: true }, "volume") => [from],
            (VesselSiphoned siphoned, "volume") => [siphoned.Vessel],
            (VesselFed fed, "volume") => [fed.Vessel],
            (CultureHarvested harvested, "volume") => [harvested.Vessel],
            (CultureDescribed culture, "inoculum") => [culture.Vessel],
            (Domain.Larvae.CrossingMade crossing, "entered") => [crossing.To],
            _ => [],
        };
}

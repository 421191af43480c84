using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using NodaTime;

namespace Broodtide.Phone.Writing;

/// <summary>One value to tap.</summary>
/// <param name="Value">On the scale.</param>
/// <param name="IsHalf">Whether it lies between two lines of the scale.</param>
/// <param name="MeansPpt">What it means as practical salinity, if that is another number.</param>
public readonly record struct Step(double Value, bool IsHalf, double? MeansPpt);

/// <summary>
/// A reading about to be taken: of which water, by what, on which scale. The values offered follow from the vessel's
/// band and the instrument alone; no reading before and nothing that is expected enters.
/// </summary>
internal sealed record Measure(Vessel? Vessel, Instrument? Instrument, string Unit)
{
    // A scale longer than this is stepped more coarsely.
    private const int MostSteps = 32;

    private static readonly SaltProduct Product = SaltProduct.Unmeasured;

    public bool IsTemperature => UnitCode.Find(Unit)?.Dimension == Dimension.Temperature;

    /// <summary>What is most likely measured in a vessel, and by what.</summary>
    public static Measure Likeliest(House house, Vessel? vessel, bool? temperature, string usualTemperature)
    {
        var ofTemperature =
            temperature
            ?? vessel?.Role
                is VesselRole.BroodTank
                    or VesselRole.HatchingBox
                    or VesselRole.Nursery
                    or VesselRole.EggVessel;
        var instrument = Instruments(house, ofTemperature).FirstOrDefault();
        return new(vessel, instrument, ScaleOf(instrument, ofTemperature, usualTemperature));
    }

    /// <summary>The instruments that measure it, the one used last first.</summary>
    public static IEnumerable<Instrument> Instruments(House house, bool temperature) =>
        house
            .Instruments.Where(instrument =>
                instrument.Description is { } described
                && (
                    described.Scale is { } scale
                        ? UnitCode.Find(scale)?.Dimension
                            == (temperature ? Dimension.Temperature : Dimension.Salinity)
                        : temperature == described.Kind is InstrumentKind.Thermometer
                )
            )
            .OrderByDescending(instrument =>
                house
                    .Account.About(Subject.Of(instrument.Id))
                    .Where(occurrence => occurrence.Fact is ReadingTaken)
                    .Select(occurrence => occurrence.Happened.Latest)
                    .LastOrDefault()
            );

    public static string ScaleOf(Instrument? instrument, bool temperature, string usualTemperature) =>
        instrument?.Description?.Scale ?? (temperature ? usualTemperature : UnitCode.PracticalSalinity);

    /// <summary>The reading of a value.</summary>
    public ReadingTaken Reading(TypedNumber value) => new(value, Vessel?.Id, Instrument?.Id);

    /// <summary>The values to tap, from fresh to salt.</summary>
    public IReadOnlyList<Step> Steps(House house, SalinityBand? band, Instant now)
    {
        if (IsTemperature)
        {
            // Water that anything here lives in: practice, no source.
            return Unit == "Cel" ? Lines(18, 29.5, 0.5, _ => null) : Lines(64, 87, 1, _ => null);
        }

        var (from, to, step) = Span();
        var low = band?.Lower.Practical ?? (IsFresh ? 0 : SalinityBand.Larvae.Lower.Practical);
        var high = band?.Upper.Practical ?? (IsFresh ? 4 : SalinityBand.Larvae.Upper.Practical);
        var means = Meaning(house, now);
        var lines = Lines(from, to, step, value => means(value) ?? (IsPlain ? value : null));
        var first = lines.FindIndex(line => line.MeansPpt >= low - 0.6);
        var last = lines.FindLastIndex(line => line.MeansPpt <= high + 0.6);
        if (first < 0 || last < first)
        {
            return IsPlain ? Lines(Math.Floor(low), Math.Ceiling(high) + 0.5, 0.5, _ => null) : [];
        }

        // A whole line begins each row, and its half ends it.
        first -= first % 2;
        last = Math.Min(last + 1 - (last % 2), lines.Count - 1);
        var steps = lines[first..(last + 1)];
        if (IsPlain && Instrument is null)
        {
            steps = [.. steps.Select(line => line with { MeansPpt = null })];
        }

        return steps.Count <= MostSteps ? steps : [.. steps.Where(line => !line.IsHalf)];
    }

    /// <summary>What a value means, for the small figure beside it.</summary>
    private Func<double, double?> Meaning(House house, Instant now)
    {
        // An instrument that was held against a standard every month has a long history: it is read once.
        var facts = Instrument is { } known
            ? WaterMeanings.Facts(house.Instrument(known.Id), Product)
            : new InstrumentFacts();
        return value =>
            ScaledSalinity.FromUnit(value, Unit) is { } scaled
            && ReadingMeanings.Of(new SalinityReading(scaled, null, now), facts, Product)
                is ReadingMeaning.Known meaning
                ? meaning.Salinity.Middle
                : null;
    }

    private bool IsPlain => Unit == UnitCode.PracticalSalinity;

    private bool IsFresh =>
        Vessel?.Role
            is VesselRole.BroodTank
                or VesselRole.HatchingBox
                or VesselRole.Nursery
                or VesselRole.EggVessel;

    // Where scales of the trade begin and end, and half of the step between their lines.
    private (double From, double To, double Step) Span() =>
        Unit switch
        {
            "sal:percent-sea" => (0, 130, 1),
            "sal:chlorinity" => (0, 25, 0.25),
            "sal:mix-g/L" or "sal:mix-g/L-water" => (0, 50, 0.5),
            "sal:mS/cm" or "sal:mS/cm-25" => (0, 65, 0.5),
            _ when Unit.StartsWith("sal:sg", StringComparison.Ordinal) => (1, 1.035, 0.0005),
            _ => (0, 45, 0.5),
        };

    private static List<Step> Lines(double from, double to, double step, Func<double, double?> means)
    {
        var lines = new List<Step>();
        var count = (int)Math.Round((to - from) / step);
        for (var at = 0; at <= count; at++)
        {
            var value = Math.Round(from + (at * step), 4);
            lines.Add(new Step(value, at % 2 == 1, means(value)));
        }

        return lines;
    }
}

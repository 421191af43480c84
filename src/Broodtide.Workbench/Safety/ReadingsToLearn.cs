using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;
using FilmCover = Broodtide.Science.Estimation.Vessels.FilmCover;

namespace Broodtide.Workbench.Safety;

/// <summary>What was read and seen in a vessel, as its twin learns it; readings of a probe that is stuck are left out.</summary>
internal sealed class ReadingsToLearn
{
    // Atomic weights: N 14.007, NO2 46.005, NO3 62.004.
    private const double NitrogenOfNitrite = 14.007 / 46.005;
    private const double NitrogenOfNitrate = 14.007 / 62.004;

    // A number that was asked back and confirmed is believed half as much.
    private const double DoubtedFactor = 2;

    private const int MostADay = 8;

    private readonly House _house;
    private readonly VesselId _vessel;
    private readonly IReadOnlyList<VesselHour> _hours;

    public ReadingsToLearn(
        House house,
        IReadOnlyList<Occurrence> told,
        VesselId vessel,
        IReadOnlyList<VesselHour> hours,
        Instant start,
        int nowHour
    )
    {
        (_house, _vessel, _hours) = (house, vessel, hours);
        var stuck = StuckProbe.Among(house, told);
        Remarks = [.. stuck.Select(probe => probe.Remark)];
        var left = stuck.SelectMany(probe => probe.Entries).ToHashSet();
        var learned = new List<LearnedReading>();
        foreach (var occurrence in told)
        {
            var hour = (int)Math.Floor((occurrence.Happened.Middle - start).TotalHours);
            if (hour >= 0 && hour <= nowHour && !left.Contains(occurrence.Id))
            {
                learned.AddRange(
                    Of(occurrence.Fact, hour).Select(read => new LearnedReading(occurrence.Id, read))
                );
            }
        }

        All = [.. Thinned(learned.OrderBy(read => read.Reading.Hour))];
    }

    // Readings a logger takes every few minutes share their error: more than these a day teach nothing new.
    private static IEnumerable<LearnedReading> Thinned(IEnumerable<LearnedReading> learned)
    {
        var taken = new Dictionary<VesselQuantity, Queue<int>>();
        foreach (var read in learned)
        {
            if (read.Reading is VesselReading.Measured measured)
            {
                if (!taken.TryGetValue(measured.Quantity, out var hours))
                {
                    taken[measured.Quantity] = hours = new();
                }

                while (hours.TryPeek(out var first) && first <= measured.Hour - 24)
                {
                    hours.Dequeue();
                }

                if (hours.Count >= MostADay)
                {
                    continue;
                }

                hours.Enqueue(measured.Hour);
            }

            yield return read;
        }
    }

    public ImmutableArray<LearnedReading> All { get; }

    public IReadOnlyList<Remark> Remarks { get; }

    private IEnumerable<VesselReading> Of(Fact fact, int hour)
    {
        switch (fact)
        {
            case ReadingTaken reading when reading.Vessel == _vessel && Number(reading, hour) is { } number:
                return [number];
            case CellsCounted counted
                when counted.Vessel == _vessel && CellsSeen.Density(counted) is { } cells:
                // Chance of the count, and a tenth for chamber and dilution.
                var seen = Math.Max(1, CellsSeen.Cells(counted));
                return
                [
                    new VesselReading.Measured(
                        hour,
                        VesselQuantity.CellsPerMillilitre,
                        Tetraselmis(cells.PerMillilitre),
                        300,
                        Math.Min(2, Math.Sqrt((1.0 / seen) + 0.01))
                    ),
                ];
            case VesselLookedAt look:
                return Looked(look, hour);
            default:
                return [];
        }
    }

    private static IEnumerable<VesselReading> Looked(VesselLookedAt look, int hour)
    {
        WaterColour? colour = look.Water switch
        {
            WaterLook.Clear => WaterColour.Clear,
            WaterLook.Tinted => WaterColour.Tinted,
            WaterLook.Green => WaterColour.Green,
            WaterLook.DeepGreen => WaterColour.Deep,
            // Brown may be diatoms or dying cells, milky hides what is green: neither tells how many cells.
            _ => null,
        };
        FilmCover? film = look.Film switch
        {
            Domain.Vessels.FilmCover.None => FilmCover.None,
            Domain.Vessels.FilmCover.Thin => FilmCover.Thin,
            Domain.Vessels.FilmCover.Thick or Domain.Vessels.FilmCover.Peeling => FilmCover.Thick,
            _ => null,
        };
        if (colour is { } seen)
        {
            yield return new VesselReading.ColourSeen(hour, seen);
        }

        if (film is { } cover)
        {
            yield return new VesselReading.FilmSeen(hour, cover);
        }
    }

    private VesselReading.Measured? Number(ReadingTaken reading, int hour)
    {
        var water = _hours[Math.Clamp(hour, 0, _hours.Count - 1)];
        var (value, unit) = (reading.Value.Value, reading.Value.Unit);
        (VesselQuantity Quantity, double Value)? told = unit switch
        {
            "mg/L{TAN-N}" => (VesselQuantity.Tan, value),
            "mg/L{NH4}" => (VesselQuantity.Tan, AmmoniaMeaning.NitrogenOfAmmonium * value),
            "mg/L{NO2-N}" => (VesselQuantity.Nitrite, value),
            "mg/L{NO2}" => (VesselQuantity.Nitrite, NitrogenOfNitrite * value),
            "mg/L{NO3-N}" => (VesselQuantity.Nitrate, value),
            "mg/L{NO3}" => (VesselQuantity.Nitrate, NitrogenOfNitrate * value),
            "mg/L{O2}" => (VesselQuantity.Oxygen, value),
            "%{O2}" => (
                VesselQuantity.Oxygen,
                value / 100 * OxygenSaturation.At(water.Salinity, water.Temperature).Value.MilligramsPerLitre
            ),
            "[pH]" => (VesselQuantity.PHNbs, ByOrdinaryBuffers(value, reading.Instrument, water)),
            UnitCode.CellsPerMillilitre => (VesselQuantity.CellsPerMillilitre, Tetraselmis(value)),
            _ => null,
        };
        if (told is not { } known || !(known.Value >= 0 && known.Value <= Most(known.Quantity)))
        {
            return null;
        }

        var usual = VesselReading.Measured.AtHome(hour, known.Quantity, known.Value);
        var error = reading.Instrument is { } device
            ? _house.Instrument(device).Description is { Error: > 0 and var own, Scale: { } scale }
            && scale == unit
                ? own * known.Value / Math.Max(value, 1e-9)
                : (double?)null
            : null;
        var doubt = reading.Value.Doubted ? DoubtedFactor : 1;
        return new VesselReading.Measured(
            hour,
            known.Quantity,
            known.Value,
            doubt * (error is > 0 and var sd && double.IsFinite(sd) ? sd : usual.Sd),
            Math.Min(2, doubt * (error is null ? usual.Share : 0))
        );
    }

    // The same share of ammonia is un-ionised whichever scale it is reckoned on: what parts the scales follows from it.
    private double ByOrdinaryBuffers(double value, InstrumentId? device, VesselHour water) =>
        device is { } id && _house.Instrument(id).Description?.PhScale is AcidityScale.Total
            ? value
                + AmmoniaDissociation.Hampson(water.Salinity, water.Temperature).Value
                - AmmoniaDissociation.CleggWhitfieldTotalScale(water.Salinity, water.Temperature).Value
            : value;

    private double Tetraselmis(double perMillilitre) =>
        perMillilitre * GreenWater.AsTetraselmis(_house, _vessel, Instant.MaxValue);

    private static double Most(VesselQuantity quantity) =>
        quantity switch
        {
            VesselQuantity.PHNbs => 14,
            VesselQuantity.Oxygen => 60,
            VesselQuantity.CellsPerMillilitre => 1e10,
            _ => 1e4,
        };
}

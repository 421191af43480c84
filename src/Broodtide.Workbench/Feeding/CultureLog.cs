using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Feeding;

/// <summary>What the journal tells of a culture since its water was filled.</summary>
internal sealed record CultureLog(
    VesselId Vessel,
    CultureDescribed Described,
    Instant Started,
    CulturePrior Prior,
    IReadOnlyList<CultureHappening> Happenings,
    IReadOnlyList<(Instant At, double Density)> Counts,
    IReadOnlyList<(Instant At, double Litres)> Taken,
    (Instant At, WaterLook Look)? Colour,
    (Instant At, FilmCover Cover)? Film,
    Instant? LastThinned
)
{
    // Chamber and dilution together, and a density that somebody said; practice.
    private const double CountError = 0.1;
    private const double SaidError = 0.25;
    private const double DoubtedError = 1;

    // A fill whose volume is not known thins by an unknown amount.
    private const double UnknownThinning = 0.5;

    /// <summary>The log of a vessel; none where no culture was described or its water is gone.</summary>
    public static CultureLog? Of(House house, VesselId id, VesselLedger? ledger, Instant now)
    {
        var vessel = house.Vessel(id);
        var last = vessel.Cultures.LastOrDefault(occurrence => occurrence.Happened.Middle <= now);
        if (
            last?.Fact is not CultureDescribed described
            || (vessel.Fills.Count > 0 && vessel.Standing is null)
        )
        {
            return null;
        }

        var began = described.Started ?? vessel.Standing?.Began?.Middle ?? last.Happened.Middle;
        // A description of older water says nothing of the water that stands now.
        if (vessel.Standing?.Began?.Middle is { } filled && filled > began)
        {
            began = filled;
        }

        var reader = new Reader(id, described.Alga, began, ledger, house);
        foreach (
            var occurrence in house
                .Account.AboutSince(Subject.Of(id), began)
                .Where(occurrence => occurrence.Happened.Middle >= began && occurrence.Happened.Middle <= now)
        )
        {
            reader.Take(occurrence);
        }

        return new(
            id,
            described,
            began,
            WithInoculum(CultureKnown.Prior(described.Alga), described, vessel, ledger),
            reader.Happenings,
            reader.Counts,
            reader.Taken,
            reader.Colour,
            reader.Film,
            reader.LastThinned
        );
    }

    // A starter of known density in a known volume says where growth began.
    private static CulturePrior WithInoculum(
        CulturePrior prior,
        CultureDescribed described,
        Vessel vessel,
        VesselLedger? ledger
    )
    {
        var first = vessel
            .Standing?.Occurrences.Select(occurrence => (occurrence.Fact as VesselFilled)?.Volume.AsVolume())
            .FirstOrDefault(volume => volume is not null);
        var litres = first?.Litres ?? ledger?.Litres.Middle;
        if (
            described.Inoculum.AsVolume() is not { Litres: > 0 } starter
            || described.InoculumDensity is not { Unit: UnitCode.CellsPerMillilitre, Value: > 0 } density
            || litres is not > 0
        )
        {
            return prior;
        }

        var start = density.Value * Math.Min(1, starter.Litres / litres.Value);
        return new(prior.Rate, prior.Capacity, Interval.FromPoints(start / 1.5, start, start * 1.5));
    }

    private sealed class Reader(
        VesselId vessel,
        CultureKind kind,
        Instant began,
        VesselLedger? ledger,
        House house
    )
    {
        public List<CultureHappening> Happenings { get; } = [];

        public List<(Instant At, double Density)> Counts { get; } = [];

        public List<(Instant At, double Litres)> Taken { get; } = [];

        public (Instant At, WaterLook Look)? Colour { get; private set; }

        public (Instant At, FilmCover Cover)? Film { get; private set; }

        public Instant? LastThinned { get; private set; }

        private bool IsFilm => kind is CultureKind.FilmDiatoms;

        public void Take(Occurrence occurrence)
        {
            var at = occurrence.Happened.Middle;
            switch (occurrence.Fact)
            {
                case CellsCounted counted when counted.Vessel == vessel && !IsFilm:
                    Counted(at, counted);
                    break;
                case ReadingTaken
                {
                    Value: { Unit: UnitCode.CellsPerMillilitre, Value: > 0 and <= 1e12 } value
                } reading when reading.Vessel == vessel && !IsFilm:
                    Add(
                        at,
                        CultureCounted.FromDensity(
                            Day(at),
                            value.Value,
                            value.Doubted ? DoubtedError : SaidError
                        )
                    );
                    break;
                case VesselLookedAt look when look.Vessel == vessel:
                    Looked(at, look);
                    break;
                case WaterMoved { Evaporated: false } moved when moved.To == vessel:
                    Thinned(at, occurrence, moved);
                    break;
                case WaterMoved { Evaporated: false, Volume: { } volume } moved when moved.From == vessel:
                    Out(at, volume);
                    break;
                case CultureHarvested { Volume: { } volume } harvested when harvested.Vessel == vessel:
                    Out(at, volume);
                    break;
                case VesselFed { Volume: { } volume } fed when fed.From == vessel:
                    Out(at, volume);
                    break;
                default:
                    break;
            }
        }

        private double Day(Instant at) => Math.Max(0, (at - began).TotalDays);

        private void Counted(Instant at, CellsCounted counted)
        {
            if (CellsSeen.Microlitres(counted) is { } volume)
            {
                Add(
                    at,
                    CultureCounted.FromCells(
                        Day(at),
                        CellsSeen.Cells(counted),
                        1000 / volume * (counted.Dilution ?? 1),
                        CountError
                    )
                );
            }
        }

        private void Add(Instant at, CultureCounted counted)
        {
            if (Math.Abs(counted.LogDensity) < 50)
            {
                Happenings.Add(counted);
                Counts.Add((at, Math.Exp(counted.LogDensity)));
            }
        }

        private void Looked(Instant at, VesselLookedAt look)
        {
            if (look.Water is { } water)
            {
                Colour = (at, water);
            }

            if (look.Film is { } film)
            {
                Film = (at, film);
                if (IsFilm && CultureKnown.Cover(film) is { } cover)
                {
                    Add(at, CultureCounted.FromDensity(Day(at), cover.Cover, cover.LogSd));
                }
            }
        }

        private void Thinned(Instant at, Occurrence occurrence, WaterMoved moved)
        {
            if (IsFilm)
            {
                return;
            }

            var isCulture = moved.From is { } from && house.Vessel(from).Role is VesselRole.AlgaeCulture;
            if (isCulture)
            {
                // Another culture poured in may thin it or thicken it.
                Happenings.Add(new CultureThinned(Day(at), 1, UnknownThinning));
                return;
            }

            var (kept, sd) = Kept(occurrence, moved);
            if (kept < 0.995)
            {
                Happenings.Add(new CultureThinned(Day(at), Math.Max(kept, 0.001), sd));
                LastThinned = at;
            }
        }

        // From the volume after the line before to that after this one: what only went for evaporation thins nothing.
        private (double Kept, double LogSd) Kept(Occurrence occurrence, WaterMoved moved)
        {
            if (ledger is null)
            {
                return (0.9, UnknownThinning);
            }

            for (var i = 1; i < ledger.Rows.Count; i++)
            {
                if (ledger.Rows[i].Occurrence.Id == occurrence.Id)
                {
                    var (before, after) = (ledger.Rows[i - 1].Litres, ledger.Rows[i].Litres);
                    return before.Middle > 0 && after.Middle > 0
                        ? (Math.Min(1, before.Middle / after.Middle), Spread(before, after))
                        : (0.9, UnknownThinning);
                }
            }

            var volume = moved.Volume.AsVolume()?.Litres ?? 0;
            var now = ledger.Litres.Middle;
            return now > volume ? ((now - volume) / now, UnknownThinning) : (0.9, UnknownThinning);
        }

        private static double Spread(Interval before, Interval after) =>
            Math.Clamp(
                Math.Max(
                    before.Width / Math.Max(before.Middle, 1e-9),
                    after.Width / Math.Max(after.Middle, 1e-9)
                ) / (2 * Interval.StandardNormal95),
                0.01,
                UnknownThinning
            );

        private void Out(Instant at, TypedNumber volume)
        {
            if (((TypedNumber?)volume).AsVolume() is { Litres: > 0 } litres)
            {
                Taken.Add((at, litres.Litres));
            }
        }
    }
}

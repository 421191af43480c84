using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>All that a plan for one brood looks at.</summary>
internal sealed record PlanScene(
    House House,
    Brood Brood,
    SpeciesProfile Profile,
    BroodForecast? Forecast,
    PlanWishes Wishes,
    Instant Now,
    DateTimeZone Zone
)
{
    /// <summary>The cultures of the house.</summary>
    public IReadOnlyList<CultureState> Cultures { get; init; } = [];

    /// <summary>Practical salinity of a vessel by its ledger, if it is known.</summary>
    public Func<VesselId, double?> SalinityOf { get; init; } = _ => null;

    // Larvae of one brood if nobody has counted: the middle of the profile's reports, on the logarithmic scale.
    private const double LeastLitres = 2;

    // For crossings, a change and what is spilt, beyond what the larvae live in. Practice, no source.
    private const double ExtraShare = 0.3;

    private readonly Lazy<HashSet<VesselId>> _inhabited = new(() =>
        [.. House.Cohorts.SelectMany(cohort => UnderWay.VesselsOf(House, cohort, Now))]
    );

    /// <summary>The brood as a subject.</summary>
    public Subject About => Subject.Of(Brood.Id);

    /// <summary>Evening of the earliest night that a plan must be ready for: one chance in twenty that it is earlier.</summary>
    public LocalDate FirstEvening =>
        Forecast is { } forecast
            ? DayAxis.EveningOf(forecast.StillToCome(0.05), Zone)
            : Now.InZone(Zone).Date;

    /// <summary>Evening of the night as likely passed as not.</summary>
    public LocalDate MiddleEvening =>
        Forecast is { } forecast ? DayAxis.EveningOf(forecast.StillToCome(0.5), Zone) : Now.InZone(Zone).Date;

    /// <summary>Evening of the last night to watch: one chance in twenty that it is later.</summary>
    public LocalDate LastEvening =>
        Forecast is { } forecast
            ? DayAxis.EveningOf(forecast.StillToCome(0.95), Zone)
            : Now.InZone(Zone).Date;

    /// <summary>Vessels that are for larvae and in which none live.</summary>
    public IEnumerable<Vessel> FreeLarvalVessels =>
        House.Vessels.Where(vessel => vessel.Role is VesselRole.LarvalVessel && !Inhabited(vessel.Id));

    /// <summary>Morning of a day that lies so many days before an evening.</summary>
    public Instant Morning(LocalDate evening, int daysBefore) => At(evening.PlusDays(-daysBefore), 8);

    /// <summary>Evening of a day that lies so many days before an evening.</summary>
    public Instant Night(LocalDate evening, int daysBefore) => At(evening.PlusDays(-daysBefore), 20);

    /// <summary>An hour of a day in the keeper's zone.</summary>
    public Instant At(LocalDate date, int hour) => DayAxis.At(date, new LocalTime(hour, 0), Zone);

    /// <summary>The civil day of an instant.</summary>
    public LocalDate DateOf(Instant instant) => instant.InZone(Zone).Date;

    /// <summary>Whether larvae live in a vessel now.</summary>
    public bool Inhabited(VesselId vessel) => _inhabited.Value.Contains(vessel);

    /// <summary>Sea water the larvae will live in, and what it was worked out from.</summary>
    public (Volume Water, string Basis) LarvalWater()
    {
        if (Wishes.LarvalWater is { Litres: > 0 } wished)
        {
            return (wished, "wished");
        }

        var vessels = FreeLarvalVessels.Select(vessel => vessel.Capacity?.Litres ?? 0).ToList();
        if (vessels.Count > 0 && vessels.Max() > 0)
        {
            return (Volume.FromLitres(Math.Min(1000, vessels.Max())), "largest-free-vessel");
        }

        var larvae = Profile.Quantity(QuantityCodes.LarvaePerBrood);
        var middle = Math.Sqrt(Math.Max(1, larvae.Low!.Value) * Math.Max(1, larvae.High!.Value));
        var litres = middle / Math.Max(0.1, Profile.LarvaePerLitre);
        return (Volume.FromLitres(Math.Clamp(Math.Ceiling(litres), LeastLitres, 1000)), "larvae-to-expect");
    }

    /// <summary>Sea water to make: for living in, for crossings and a change.</summary>
    public Volume WaterToMake() => (1 + ExtraShare) * LarvalWater().Water;

    /// <summary>When sea water that stands ready was made; none if none does.</summary>
    /// <param name="since">Only water made since then: a can half used by an earlier brood is not this one's.</param>
    public Instant? SeaWaterReady(Instant? since = null)
    {
        foreach (
            var vessel in House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.LarvalVessel or VesselRole.Store && !Inhabited(vessel.Id)
            )
        )
        {
            if (vessel.Standing is { } fill && Salted(fill, since ?? Instant.MinValue) is { } when)
            {
                return when;
            }
        }

        return null;
    }

    /// <summary>The instruments that salinity is read from, and the latest check of each.</summary>
    public IEnumerable<(Instrument Instrument, Instant? Checked)> SalinityInstruments() =>
        House
            .Instruments.Where(instrument =>
                instrument.Description?.Kind
                    is InstrumentKind.Refractometer
                        or InstrumentKind.Hydrometer
                        or InstrumentKind.SwingArmHydrometer
                        or InstrumentKind.ConductivityMeter
            )
            .Select(instrument =>
                (instrument, instrument.Calibrations.Select(c => (Instant?)c.Done.Latest).Max())
            );

    // When salt went in, since an instant; none for water that was never salted.
    private static Instant? Salted(Fill fill, Instant since)
    {
        foreach (var occurrence in fill.Occurrences)
        {
            var salty = occurrence.Fact switch
            {
                VesselFilled filled => filled.Salinity is { Value: > 0 } || filled.From is not null,
                WaterMoved moved => moved.Mix is { Value: > 0 } || moved.Salinity is { Value: > 0 },
                _ => false,
            };
            if (salty && occurrence.Happened.Latest >= since)
            {
                return occurrence.Happened.Latest;
            }
        }

        return null;
    }
}

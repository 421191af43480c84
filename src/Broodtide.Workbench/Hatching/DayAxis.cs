using NodaTime;
using NodaTime.TimeZones;

namespace Broodtide.Workbench.Hatching;

/// <summary>
/// The axis on which a brood's days are counted: from noon of a civil day, so that a night lies whole between two
/// whole numbers. A change of the clocks shifts what follows by its hour; instants stay exact.
/// </summary>
/// <param name="Origin">Day zero.</param>
internal readonly record struct DayAxis(Instant Origin)
{
    /// <summary>Where midnight lies between two noons.</summary>
    public const double MidnightPhase = 0.5;

    public static DayAxis From(Instant anchor, DateTimeZone zone) =>
        new(Noon(anchor.InZone(zone).Date, zone));

    public static Instant Noon(LocalDate date, DateTimeZone zone) => At(date, new LocalTime(12, 0), zone);

    public static Instant At(LocalDate date, LocalTime time, DateTimeZone zone) =>
        zone.ResolveLocal(date + time, Resolvers.LenientResolver).ToInstant();

    /// <summary>The day on whose evening the night of an instant begins.</summary>
    public static LocalDate EveningOf(Instant instant, DateTimeZone zone)
    {
        var local = instant.InZone(zone).LocalDateTime;
        return local.Hour < 12 ? local.Date.PlusDays(-1) : local.Date;
    }

    public double DayOf(Instant instant) => (instant - Origin).TotalDays;

    public Instant InstantOf(double day) => Origin + Duration.FromDays(day);
}

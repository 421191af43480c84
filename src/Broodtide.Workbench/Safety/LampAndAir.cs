using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>Light and air over a vessel at any instant, as its journal tells.</summary>
internal sealed class LampAndAir
{
    // Lux for a umol/(m2 s) of photons: cool white 74, sunlight 54 (from memory). A lamp is known to half or double anyway.
    private const double LuxPerMicromole = 74;

    // Lamps over home cultures: 60 to 150 umol/(m2 s) in papers; a lamp of which nothing was said is taken as a weak one.
    private const double UsualMicromoles = 60;

    // Daylight of a room, away from the window, 8 to 20 o'clock: this project's estimate.
    private const double RoomMicromoles = 3;
    private const double NoonOfLamp = 14;

    private readonly List<(Instant From, bool On, double? Hours)> _lamp = [];
    private readonly List<(Instant From, double Micromoles)> _bright = [];
    private readonly List<(Instant From, bool On)> _air = [];
    private readonly List<(Instant From, bool Failed)> _mains = [];
    private readonly DateTimeZone _zone;

    public LampAndAir(House house, VesselId vessel, DateTimeZone zone)
    {
        _zone = zone;
        foreach (var occurrence in house.Account.About(Subject.Of(vessel)))
        {
            var when = occurrence.Happened.Middle;
            switch (occurrence.Fact)
            {
                case LightChanged light:
                    _lamp.Add((when, light.On, light.HoursPerDay));
                    Brightness(when, light.Illuminance);
                    break;
                case ReadingTaken reading when reading.Vessel == vessel:
                    Brightness(when, reading.Value);
                    break;
                case AirChanged air:
                    _air.Add((when, air.On));
                    break;
                default:
                    break;
            }
        }

        foreach (var occurrence in house.Account.About(Subject.House))
        {
            if (occurrence.Fact is PowerFailed or PowerRestored)
            {
                _mains.Add((occurrence.Happened.Middle, occurrence.Fact is PowerFailed));
            }
        }
    }

    /// <summary>Whether anything was ever said of air.</summary>
    public bool KnowsAir => _air.Count > 0;

    /// <summary>Whether anything was ever said of light.</summary>
    public bool KnowsLight => _lamp.Count > 0;

    /// <summary>Whether anything was ever said of how bright the lamp is.</summary>
    public bool KnowsBrightness => _bright.Count > 0;

    public AirFlow AirAt(Instant at) =>
        !HasMains(at) ? AirFlow.None
        : Last(_air, at).What ? AirFlow.Gentle
        : AirFlow.None;

    public double MicromolesAt(Instant at)
    {
        var local = at.InZone(_zone).LocalDateTime;
        var hour = local.Hour + (local.Minute / 60.0);
        var room = hour is >= 8 and < 20 ? RoomMicromoles : 0;
        if (!HasMains(at) || Last(_lamp, at) is not { On: true } lamp)
        {
            return room;
        }

        var half = (lamp.Hours ?? 24) / 2;
        var away = Math.Abs(hour - NoonOfLamp);
        return Math.Min(away, 24 - away) < half || half >= 12
            ? Math.Min(
                VesselTwin.MostLightMicromoles,
                Last(_bright, at).What is > 0 and var told ? told : UsualMicromoles
            )
            : room;
    }

    private void Brightness(Instant when, TypedNumber? number)
    {
        var told = number switch
        {
            { Unit: "umol/m2/s" } => number.Value,
            { Unit: "lx" } => number.Value / LuxPerMicromole,
            _ => double.NaN,
        };
        if (told is >= 0 and <= VesselTwin.MostLightMicromoles)
        {
            _bright.Add((when, told));
        }
    }

    private bool HasMains(Instant at) => !Last(_mains, at).What;

    private static (Instant From, T What) Last<T>(List<(Instant From, T What)> changes, Instant at) =>
        changes.FindLast(change => change.From <= at);

    private static (Instant From, bool On, double? Hours) Last(
        List<(Instant From, bool On, double? Hours)> changes,
        Instant at
    ) => changes.FindLast(change => change.From <= at);
}

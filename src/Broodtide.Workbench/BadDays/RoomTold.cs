using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Heat;
using NodaTime;

namespace Broodtide.Workbench.BadDays;

/// <summary>Temperatures that a journal tells of the room and of a vessel, on one clock of hours.</summary>
internal sealed class RoomTold
{
    // What the room did longer ago says little of tomorrow.
    private static readonly Duration CourseReach = Duration.FromDays(2);

    // How a vessel follows its room is learned from so long.
    private static readonly Duration LearningReach = Duration.FromDays(45);

    private readonly House _house;
    private readonly Instant _midnight;

    public RoomTold(House house, Instant now, DateTimeZone zone)
    {
        _house = house;
        Now = now;
        var first = (now - LearningReach).InZone(zone).Date;
        _midnight = zone.AtStartOfDay(first).ToInstant();
        Room = [.. Readings(RoomReadings()).Where(reading => reading.Hours >= 0)];
        HourOfDay = now.InZone(zone).TimeOfDay.TickOfDay / (double)NodaConstants.TicksPerHour;
        Course = RoomCourse.From([.. Room.Where(reading => reading.Hours >= HoursOf(now - CourseReach))]);
    }

    public Instant Now { get; }

    /// <summary>Readings of the room, by time; hours since a midnight of the keeper's clock.</summary>
    public IReadOnlyList<TimedCelsius> Room { get; }

    /// <summary>The room of the last days; none where nobody read it.</summary>
    public RoomCourse? Course { get; }

    /// <summary>Hour of the day now.</summary>
    public double HourOfDay { get; }

    public double HoursOf(Instant at) => (at - _midnight).TotalHours;

    /// <summary>Temperatures of a vessel, by time.</summary>
    public IReadOnlyList<TimedCelsius> Of(VesselId vessel) =>
        [
            .. Readings(
                    _house
                        .Account.AboutSince(Subject.Of(vessel), _midnight)
                        .Where(told => IsOf(told.Fact, vessel))
                )
                .Where(reading => reading.Hours >= 0),
        ];

    /// <summary>The heater of a vessel: its setting if it is on; and readings taken while none was on.</summary>
    public (double? Setting, bool IsOn, IReadOnlyList<TimedCelsius> Unheated) Heating(VesselId vessel)
    {
        double? setting = null;
        var on = false;
        List<TimedCelsius> unheated = [];
        foreach (var told in _house.Account.About(Subject.Of(vessel)))
        {
            if (told.Happened.Middle > Now)
            {
                continue;
            }

            if (told.Fact is HeaterChanged heater)
            {
                on = heater.On;
                setting = heater.On ? heater.Setting.AsTemperature()?.Celsius ?? setting : setting;
            }
            else if (!on && IsOf(told.Fact, vessel))
            {
                unheated.AddRange(Readings([told]));
            }
        }

        return (
            on ? setting : null,
            on,
            [.. unheated.Where(reading => reading.Hours >= 0).OrderBy(reading => reading.Hours)]
        );
    }

    private static bool IsOf(Fact fact, VesselId vessel) =>
        fact is ReadingTaken reading && reading.Vessel == vessel;

    private IEnumerable<TimedCelsius> Readings(IEnumerable<Occurrence> told) =>
        told.Where(one => one.Happened.Middle <= Now)
            .Select(one =>
                (
                    Hours: HoursOf(one.Happened.Middle),
                    Shown: ((ReadingTaken)one.Fact).Value.AsTemperature()?.Celsius
                )
            )
            .Where(one => one.Shown is > -30 and < 60)
            .OrderBy(one => one.Hours)
            .Select(one => new TimedCelsius(one.Hours, one.Shown!.Value));

    // A reading that names no vessel is of the room; with its instrument it stands under that.
    private IEnumerable<Occurrence> RoomReadings() =>
        _house
            .Account.AboutSince(Subject.House, _midnight)
            .Concat(
                _house.Instruments.SelectMany(instrument =>
                    _house.Account.AboutSince(Subject.Of(instrument.Id), _midnight)
                )
            )
            .Where(told => told.Fact is ReadingTaken { Vessel: null });
}

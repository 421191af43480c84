using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>What a twin tells of one quantity at an instant.</summary>
/// <param name="At">When.</param>
/// <param name="Value">5, 50 and 95 % points, in the unit of the quantity.</param>
public readonly record struct VesselPoint(Instant At, Interval Value);

/// <summary>A reading that the twin could not explain: it is wrong, or what was supposed of the vessel is.</summary>
/// <param name="Entry">The entry that tells it.</param>
/// <param name="Tail">Chance of something as odd.</param>
public sealed record OddReading(EntryId Entry, Probability Tail);

/// <summary>
/// The twin of one vessel, run to now with everything learned that was read, and two days on with nothing done. Whoever
/// weighs a change runs <see cref="With"/> it beside, member by member.
/// </summary>
public sealed class VesselRun
{
    private readonly IReadOnlyDictionary<int, VesselEnsemble> _days;
    private readonly IReadOnlyDictionary<VesselQuantity, ImmutableArray<VesselPoint>> _past;

    internal VesselRun(
        VesselStory story,
        VesselEnsemble now,
        VesselTraces ahead,
        ImmutableArray<OddReading> odd,
        IReadOnlyDictionary<int, VesselEnsemble> days,
        IReadOnlyDictionary<VesselQuantity, ImmutableArray<VesselPoint>> past
    )
    {
        (Story, Now, Ahead, Odd) = (story, now, ahead, odd);
        (_days, _past) = (days, past);
    }

    /// <summary>What the journal tells of the vessel.</summary>
    public VesselStory Story { get; }

    /// <summary>The members at the last whole hour before now.</summary>
    public VesselEnsemble Now { get; }

    /// <summary>The two days ahead with nothing done; place 0 is now.</summary>
    public VesselTraces Ahead { get; }

    /// <summary>Readings that do not go with the rest.</summary>
    public ImmutableArray<OddReading> Odd { get; }

    /// <summary>The days ahead under another scene that agrees with this one up to now.</summary>
    /// <param name="changed">The scene; its events from <see cref="VesselStory.NowHour"/> on are done.</param>
    /// <param name="hours">How many, at most as far as the scene reaches.</param>
    public VesselTraces With(VesselScene changed, int hours = VesselStory.HoursAhead) =>
        VesselTwin.Forward(Now, changed, hours).Traces;

    /// <summary>The members at the newest kept day not after an hour of the clock; those readings are not learned again.</summary>
    /// <param name="hour">The hour.</param>
    public VesselEnsemble NotAfter(int hour) =>
        _days.Where(day => day.Key <= hour).MaxBy(day => day.Key).Value ?? _days[0];

    /// <summary>What was believed of the last two days when they had passed, and the two ahead, hour by hour.</summary>
    /// <param name="quantity">Of what.</param>
    public ImmutableArray<VesselPoint> Track(VesselQuantity quantity) =>
        [
            .. _past.GetValueOrDefault(quantity, []),
            .. Enumerable
                .Range(0, Ahead.Hours + 1)
                .Select(place => new VesselPoint(
                    Story.At(Story.NowHour + place),
                    Ahead.Quantiles(quantity, place)
                )),
        ];
}

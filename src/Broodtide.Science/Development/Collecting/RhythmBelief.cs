using Broodtide.Units;

namespace Broodtide.Science.Development.Collecting;

/// <summary>
/// What is believed of the hours at which larvae leave the female, and of what an hour in fresh water costs, before
/// anything was gathered: 5, 50 and 95 % points. Hours are counted from noon to noon, so that a night lies whole.
/// </summary>
public sealed record RhythmBelief
{
    /// <summary>By its points.</summary>
    /// <param name="peakHoursAfterNoon">The hour at which most hatch, 0 to 24 after noon (10 is 22 o'clock).</param>
    /// <param name="spreadHours">Standard deviation around it within one night, hours, above zero.</param>
    /// <param name="steadyShare">Share that hatches evenly over day and night, above 0 and below 1.</param>
    /// <param name="lossPerHour">Hazard in fresh water, per hour, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public RhythmBelief(
        Interval peakHoursAfterNoon,
        Interval spreadHours,
        Interval steadyShare,
        Interval lossPerHour
    )
    {
        Finite.Within(peakHoursAfterNoon.Low, 0, 24);
        Finite.Within(peakHoursAfterNoon.High, 0, 24);
        Finite.Within(spreadHours.Low, 0.1, 12);
        Finite.Within(spreadHours.High, 0.1, 12);
        Finite.Within(steadyShare.Low, 1e-6, 1 - 1e-6);
        Finite.Within(steadyShare.High, 1e-6, 1 - 1e-6);
        Finite.Positive(lossPerHour.Low);
        Finite.Within(lossPerHour.High, 0, 10);
        PeakHoursAfterNoon = peakHoursAfterNoon;
        SpreadHours = spreadHours;
        SteadyShare = steadyShare;
        LossPerHour = lossPerHour;
    }

    /// <summary>The hour at which most hatch, after noon.</summary>
    public Interval PeakHoursAfterNoon { get; }

    /// <summary>Standard deviation around it, hours.</summary>
    public Interval SpreadHours { get; }

    /// <summary>Share that hatches evenly over day and night.</summary>
    public Interval SteadyShare { get; }

    /// <summary>Hazard in fresh water, per hour.</summary>
    public Interval LossPerHour { get; }
}

using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Collecting;

/// <summary>
/// One possibility for the hours of hatching: every day the same, a normal distribution around one hour wrapped
/// around the clock, over an even share.
/// </summary>
public sealed record RhythmDraw
{
    private readonly double[] _slots;

    internal RhythmDraw(
        double peakHoursAfterNoon,
        double spreadHours,
        double steadyShare,
        double lossPerHour,
        double weight,
        double[]? slots = null
    )
    {
        PeakHoursAfterNoon = peakHoursAfterNoon;
        SpreadHours = spreadHours;
        SteadyShare = steadyShare;
        LossPerHour = lossPerHour;
        Weight = weight;
        _slots = slots ?? Slots();
    }

    /// <summary>Slots of a day in which hatching and loss are even.</summary>
    internal const int SlotsOfDay = 96;

    /// <summary>Their length, hours.</summary>
    internal const double SlotHours = 24.0 / SlotsOfDay;

    /// <summary>The hour at which most hatch, 0 to 24 after noon.</summary>
    public double PeakHoursAfterNoon { get; }

    /// <summary>Standard deviation around it, hours.</summary>
    public double SpreadHours { get; }

    /// <summary>Share that hatches evenly.</summary>
    public double SteadyShare { get; }

    /// <summary>Hazard in fresh water, per hour.</summary>
    public double LossPerHour { get; }

    /// <summary>How much it is believed among the draws, 0 to 1; together 1.</summary>
    public double Weight { get; }

    internal RhythmDraw Weighing(double weight) =>
        new(PeakHoursAfterNoon, SpreadHours, SteadyShare, LossPerHour, weight, _slots);

    /// <summary>Share of a day's larvae that hatches in a stretch of hours after noon, any length.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or not in this order.</exception>
    public double Hatching(double fromHours, double toHours)
    {
        Finite.Within(toHours, Finite.Required(fromHours), fromHours + 1e4);
        var sum = 0.0;
        foreach (var (share, _) in Pieces(fromHours, toHours))
        {
            sum += share;
        }

        return sum;
    }

    /// <summary>The same, less those that have died by the end.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or not in this order.</exception>
    public double AliveOf(double fromHours, double toHours)
    {
        Finite.Within(toHours, Finite.Required(fromHours), fromHours + 1e4);
        var alive = 0.0;
        foreach (var (share, hours) in Pieces(fromHours, toHours))
        {
            alive =
                (alive * Math.Exp(-LossPerHour * hours))
                + (share * CollectionYield.OfEvenHatching(LossPerHour, hours));
        }

        return alive;
    }

    // The stretch cut at the slots, with the share that hatches in each piece.
    private IEnumerable<(double Share, double Hours)> Pieces(double fromHours, double toHours)
    {
        var at = fromHours;
        while (at < toHours)
        {
            var slot = Math.Floor((at / SlotHours) + 1e-9);
            var end = Math.Min(toHours, (slot + 1) * SlotHours);
            var hours = end - at;
            var ofDay = (int)(slot - (SlotsOfDay * Math.Floor(slot / SlotsOfDay)));
            yield return (_slots[ofDay] * hours / SlotHours, hours);
            at = end;
        }
    }

    private double[] Slots()
    {
        var slots = new double[SlotsOfDay];
        // A spread of at most half a day.
        for (var turn = -5; turn <= 5; turn++)
        {
            // Nothing reaches a day that begins or ends so far off.
            if (
                (24 * turn) - PeakHoursAfterNoon > 9 * SpreadHours
                || PeakHoursAfterNoon - (24 * (turn + 1)) > 9 * SpreadHours
            )
            {
                continue;
            }

            var before = Normal.CDF(PeakHoursAfterNoon, SpreadHours, 24 * turn);
            for (var i = 0; i < SlotsOfDay; i++)
            {
                var after = Normal.CDF(PeakHoursAfterNoon, SpreadHours, (24 * turn) + ((i + 1) * SlotHours));
                slots[i] += (1 - SteadyShare) * (after - before);
                before = after;
            }
        }

        for (var i = 0; i < SlotsOfDay; i++)
        {
            slots[i] += SteadyShare / SlotsOfDay;
        }

        return slots;
    }
}

using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <content>What is believed, taken out as numbers and put in again.</content>
public sealed partial class WaterSaltFilter
{
    /// <summary>All that is believed now.</summary>
    public WaterSaltState State() =>
        new(
            [
                .. _slots.Zip(
                    _rows,
                    (slot, row) =>
                        new WaterSaltSlot(
                            row,
                            slot.Temperature,
                            slot.EvaporationPriorKgPerDay,
                            slot.SensorWanderSd
                        )
                ),
            ],
            [.. _mean],
            [.. _covariance.Cast<double>()]
        );

    /// <summary>The filter that believes this.</summary>
    /// <param name="state">What <see cref="State"/> gave.</param>
    /// <exception cref="ArgumentException">
    /// The numbers do not belong together: a row is missing or stands twice, or there are too few or too many of them.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public static WaterSaltFilter Of(WaterSaltState state)
    {
        var size = state.Mean.Count;
        var rows = state.Slots.Select(slot => slot.Row).Where(row => row != Dropped).Order();
        if (
            size % 3 != 0
            || state.Covariance.Count != size * size
            || !rows.SequenceEqual(Enumerable.Range(0, size / 3))
        )
        {
            throw new ArgumentException("These numbers are no state of a filter.", nameof(state));
        }

        var filter = new WaterSaltFilter
        {
            _mean = [.. state.Mean.Select(mean => Finite.Required(mean))],
            _covariance = new double[size, size],
        };
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++)
            {
                filter._covariance[i, j] = Finite.Required(state.Covariance[(i * size) + j]);
            }
        }

        foreach (var slot in state.Slots)
        {
            filter._rows.Add(slot.Row);
            filter._slots.Add(
                new Slot(
                    slot.Temperature,
                    Finite.NotNegative(slot.EvaporationPriorKgPerDay),
                    slot.SensorWanderSd is { } wander ? Finite.NotNegative(wander) : null
                )
            );
        }

        return filter;
    }
}

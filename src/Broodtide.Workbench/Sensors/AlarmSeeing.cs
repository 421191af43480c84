using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>Says that somebody has seen an alarm: one rule for the phone and the command line.</summary>
public static class AlarmSeeing
{
    /// <summary>Keeps that somebody has seen an alarm of the last days; who saw it first stays.</summary>
    /// <param name="store">The store.</param>
    /// <param name="alarm">Which alarm.</param>
    /// <param name="seen">When, and who.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The alarm as it is kept now; none where there is no such alarm of the last <see cref="SensorsSeen.Days"/> days.</returns>
    public static async ValueTask<AlarmSpan?> SeeAsync(
        IReadingStore store,
        Guid alarm,
        Acknowledged seen,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(seen);
        var known = await store.AlarmsAsync(seen.At - Duration.FromDays(SensorsSeen.Days), cancellation);
        if (known.FirstOrDefault(one => one.Id == alarm) is not { } found)
        {
            return null;
        }

        if (found.Seen is not null)
        {
            return found;
        }

        var marked = found with { Seen = seen with { At = RawReading.Cut(seen.At) } };
        await store.PutAsync(marked, cancellation);
        return marked;
    }
}

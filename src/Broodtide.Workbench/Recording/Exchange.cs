using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// Brings two stores together: each says how far it holds every replica, and receives what it lacks. May be broken
/// off anywhere and repeated; nothing depends on clocks, positions or on who asked.
/// </summary>
public static class Exchange
{
    /// <summary>Most entries in one batch: some megabytes, so that a broken link loses little.</summary>
    public const int BatchEntries = 500;

    /// <summary>Fetches what is lacking here, then gives what is lacking there.</summary>
    /// <param name="here">The store that asks.</param>
    /// <param name="there">The other one.</param>
    /// <param name="cancellation">Stops between batches; what was taken stays.</param>
    public static async ValueTask<Exchanged> RunAsync(
        IJournal here,
        IJournal there,
        CancellationToken cancellation = default
    )
    {
        var fetched = await MoveAsync(there, here, cancellation);
        var given = await MoveAsync(here, there, cancellation);
        if (given.Conflicts.Count > 0)
        {
            // The other side holds something under a number known here otherwise. It could not tell while it was
            // behind; now it can.
            fetched = Together(fetched, await MoveAsync(there, here, cancellation));
        }

        return new Exchanged(fetched, given);
    }

    /// <summary>Gives one side what it lacks of the other.</summary>
    private static async ValueTask<Intake> MoveAsync(
        IJournal from,
        IJournal to,
        CancellationToken cancellation
    )
    {
        var holdings = Holdings.Of(await to.ReadAllAsync(cancellation));
        var intake = new Intake(0, 0, []);
        foreach (var batch in holdings.LackedOf(await from.ReadAllAsync(cancellation)).Chunk(BatchEntries))
        {
            cancellation.ThrowIfCancellationRequested();
            var taken = await to.TakeAsync(batch, cancellation);
            intake = Together(intake, taken);
        }

        return intake;
    }

    private static Intake Together(Intake first, Intake second) =>
        new(first.New + second.New, first.Known + second.Known, [.. first.Conflicts, .. second.Conflicts]);
}

/// <summary>What an exchange moved.</summary>
/// <param name="Fetched">What became of the entries that came here.</param>
/// <param name="Given">What became of the entries that went there.</param>
public sealed record Exchanged(Intake Fetched, Intake Given);

using System.Runtime.CompilerServices;

namespace Broodtide.Phone.Browser;

/// <summary>
/// Runs long work in small steps and hands the page back to the browser whenever its budget is spent, so that taps,
/// paint and sound come in between. A single step must be short by itself; the slicer cannot cut one.
/// </summary>
internal sealed class Slicer
{
    /// <summary>Measured: with four times less speed a slice of this budget stays under 50 ms.</summary>
    public static readonly TimeSpan DefaultBudget = TimeSpan.FromMilliseconds(12);

    private readonly TimeSpan _budget;
    private readonly Func<Task> _rest;
    private readonly TimeProvider _time;
    private long _began;

    public Slicer()
        : this(DefaultBudget, Glue.Rest, TimeProvider.System) { }

    public Slicer(TimeSpan budget, Func<Task> rest, TimeProvider time)
    {
        _budget = budget;
        _rest = rest;
        _time = time;
        _began = time.GetTimestamp();
    }

    /// <summary>Pulls lazy work step by step, resting between steps.</summary>
    public async IAsyncEnumerable<T> Slice<T>(
        IEnumerable<T> steps,
        [EnumeratorCancellation] CancellationToken cancel = default
    )
    {
        await Rest();
        foreach (var step in steps)
        {
            yield return step;
            cancel.ThrowIfCancellationRequested();
            await Breathe();
        }
    }

    /// <summary>Runs lazy work to its end and gives the last thing it made.</summary>
    public async Task<T> Last<T>(IEnumerable<T> steps, CancellationToken cancel = default)
    {
        var any = false;
        var last = default(T);
        await foreach (var step in Slice(steps, cancel))
        {
            any = true;
            last = step;
        }

        return any ? last! : throw new InvalidOperationException("The work had no step.");
    }

    /// <summary>For a loop of one's own: rests if the budget is spent, else goes straight on.</summary>
    public Task Breathe() => _time.GetElapsedTime(_began) < _budget ? Task.CompletedTask : Rest();

    private async Task Rest()
    {
        await _rest();
        _began = _time.GetTimestamp();
    }
}

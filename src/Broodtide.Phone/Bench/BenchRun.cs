using NodaTime;

namespace Broodtide.Phone.Bench;

/// <summary>One step at the bench.</summary>
/// <param name="Wait">How long after the step before it, or after the start.</param>
/// <param name="Deed">What to do, in the imperative: 400 mL sea water.</param>
/// <param name="Detail">How: into the cup, down the wall.</param>
/// <param name="Done">The deed in the past, for the key: Poured 400 mL.</param>
public sealed record BenchStep(Duration Wait, string Deed, string Detail, string Done);

/// <summary>
/// A run of the clock: the steps, when it began and when each was done. Every target follows from these, so nothing
/// counts down and nothing is lost by sleep or reload. A step done late moves all later ones by as much.
/// </summary>
public sealed record BenchRun(IReadOnlyList<BenchStep> Steps, Instant Started, IReadOnlyList<Instant> Done)
{
    public static BenchRun Begin(IReadOnlyList<BenchStep> steps, Instant now) =>
        steps.Count > 0
            ? new(steps, now, [])
            : throw new ArgumentException("A clock needs a step.", nameof(steps));

    /// <summary>The step that is next, from 0; the number of steps once all are done.</summary>
    public int Next => Done.Count;

    public bool IsFinished => Next == Steps.Count;

    /// <summary>When a step is due, or was done.</summary>
    public Instant At(int step)
    {
        if (step < Done.Count)
        {
            return Done[step];
        }

        var at = Done.Count > 0 ? Done[^1] : Started;
        for (var index = Done.Count; index <= step; index++)
        {
            at += Steps[index].Wait;
        }

        return at;
    }

    /// <summary>Time to the next step; negative when it is late.</summary>
    public Duration Left(Instant now) => At(Next) - now;

    /// <summary>
    /// A wet finger often touches twice: a key pressed again this soon after a step is the same touch. No step of a
    /// crossing is done in a second; the length is practice, no source.
    /// </summary>
    public static readonly Duration OneTouch = Duration.FromSeconds(1);

    /// <summary>The next step is done, unless this is the touch that did the one before.</summary>
    public BenchRun DoneAt(Instant now) =>
        IsFinished || (Done.Count > 0 && now >= Done[^1] && now - Done[^1] < OneTouch)
            ? this
            : this with
            {
                Done = [.. Done, now],
            };

    public BenchRun Undone() => Done.Count == 0 ? this : this with { Done = [.. Done.SkipLast(1)] };
}

using Broodtide.Phone.Browser;
using NodaTime;

namespace Broodtide.Phone.Bench;

/// <summary>One beep ten seconds before each step that is still to come, three at the step.</summary>
internal static class BenchSounds
{
    public static readonly Duration Warning = Duration.FromSeconds(10);

    /// <summary>One instant alone, such as a second look at the light.</summary>
    public static IReadOnlyList<PlannedSound> For(Instant? at) =>
        at is { } instant ? [new(instant - Warning, 1), new(instant, 3)] : [];

    public static IReadOnlyList<PlannedSound> For(BenchRun run)
    {
        var sounds = new List<PlannedSound>();
        for (var step = run.Next; step < run.Steps.Count; step++)
        {
            var at = run.At(step);
            // Where the wait is no longer than the warning, the warning would fall into the step before.
            if (run.Steps[step].Wait > Warning)
            {
                sounds.Add(new(at - Warning, 1));
            }

            sounds.Add(new(at, 3));
        }

        return sounds;
    }
}

using NodaTime;

namespace Broodtide.Phone.Browser;

/// <summary>A number of beeps at an instant.</summary>
internal readonly record struct PlannedSound(Instant At, int Beeps);

/// <summary>Sounds laid on the audio clock ahead of time, with a buzz where the phone has one.</summary>
internal sealed class Sounds
{
    /// <summary>Puts these in place of whatever was planned.</summary>
    public void Plan(IReadOnlyCollection<PlannedSound> sounds) =>
        Glue.PlanSounds(
            [.. sounds.Select(sound => (double)sound.At.ToUnixTimeMilliseconds())],
            [.. sounds.Select(sound => sound.Beeps)]
        );

    /// <summary>Silence from now on.</summary>
    public void Cancel() => Plan([]);

    /// <summary>Whether the audio clock runs; it may not before the first tap, or where there is no sound.</summary>
    public bool IsReady => Glue.SoundState() == "running";
}

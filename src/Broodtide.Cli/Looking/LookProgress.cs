using Broodtide.Cli.Door;

namespace Broodtide.Cli.Looking;

/// <summary>How far a look has come, one line a step on standard error, so that the answer stays alone on the other.</summary>
internal sealed class LookProgress(Sitting sitting)
{
    /// <summary>Says a step, and ends the call where it was broken off.</summary>
    public void Say(string step)
    {
        sitting.Cancellation.ThrowIfCancellationRequested();
        sitting.Surroundings.Error.WriteLine(step);
    }
}

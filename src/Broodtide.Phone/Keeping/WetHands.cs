namespace Broodtide.Phone.Keeping;

/// <summary>
/// Whether a screen at the bench is open. As long as it is, hands are in the water and work that nobody there asks for waits: no
/// larva tapped must wait for a list of what is due.
/// </summary>
internal sealed class WetHands
{
    private TaskCompletionSource? _free;
    private int _screens;

    /// <summary>A screen at the bench was opened.</summary>
    public void GoIn()
    {
        _screens++;
        _free ??= new(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    /// <summary>It was left.</summary>
    public void ComeOut()
    {
        if (--_screens == 0)
        {
            _free?.SetResult();
            _free = null;
        }
    }

    /// <summary>Waits until no screen at the bench is open.</summary>
    /// <exception cref="OperationCanceledException">It is not waited for any more.</exception>
    public Task FreeAsync(CancellationToken cancellation) =>
        _free?.Task.WaitAsync(cancellation) ?? Task.CompletedTask;
}

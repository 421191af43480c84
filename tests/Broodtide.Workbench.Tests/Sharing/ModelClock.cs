using NodaTime;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>A clock that goes on by a second with each look, and as far as it is told.</summary>
internal sealed class ModelClock(Duration ahead = default) : IClock
{
    private Instant _now = Instant.FromUtc(2026, 3, 1, 21, 5);

    public Instant GetCurrentInstant()
    {
        _now += Duration.FromSeconds(1);
        return _now + ahead;
    }

    public void GoOn(Duration by) => _now += by;
}

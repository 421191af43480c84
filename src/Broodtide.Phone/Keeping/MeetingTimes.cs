using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// When the server may be asked without anything new to tell it: not while it was away a moment ago, and the longer
/// it has been away, the more seldom.
/// </summary>
internal sealed class MeetingTimes
{
    private static readonly Duration Least = Duration.FromMinutes(1);
    private static readonly Duration Most = Duration.FromMinutes(30);

    private Duration _wait = Least;
    private Instant _notBefore = Instant.MinValue;

    /// <summary>Whether a visit may ask now.</summary>
    public bool MayAsk(Instant now) => now >= _notBefore;

    /// <summary>A meeting has ended.</summary>
    public void Met(Meeting how, Instant now)
    {
        _wait =
            how is Meeting.Agreed ? Least
            : _wait + _wait < Most ? _wait + _wait
            : Most;
        _notBefore = now + _wait;
    }
}

namespace Broodtide.Workbench.People;

/// <summary>What a phone sees of the house before anybody signs in.</summary>
/// <param name="HasOwner">Whether somebody owns the house.</param>
/// <param name="AllAreIn">Whether whoever is at the machine is let in without a passphrase.</param>
/// <param name="Me">Who is signed in on this phone; none if nobody.</param>
/// <param name="Ways">How that person likes to be shown things; none before anything was chosen.</param>
public sealed record DoorSeen(bool HasOwner, bool AllAreIn, PersonSeen? Me, WaysSeen? Ways = null);

/// <summary>How a person likes to be shown things; what was not chosen is none, and follows the language.</summary>
/// <param name="Language">The language, such as "de".</param>
/// <param name="Decimal">"point" or "comma".</param>
/// <param name="Units">"metric" or "us".</param>
/// <param name="Clock">"hours24" or "hours12".</param>
public sealed record WaysSeen(
    string? Language = null,
    string? Decimal = null,
    string? Units = null,
    string? Clock = null
)
{
    private const int LongestCode = 20;

    /// <summary>Whether each is a short word of small letters and figures: what a phone writes.</summary>
    public bool IsPlain() => IsPlain(Language) && IsPlain(Decimal) && IsPlain(Units) && IsPlain(Clock);

    private static bool IsPlain(string? code) =>
        code is null || (code.Length is > 0 and <= LongestCode && code.All(char.IsAsciiLetterOrDigit));
}

/// <summary>A person.</summary>
/// <param name="Id">Which person.</param>
/// <param name="Name">What the person signs with.</param>
/// <param name="Role">The code of the role.</param>
public sealed record PersonSeen(Guid Id, string Name, string Role);

/// <summary>One sign-in on a device.</summary>
/// <param name="Id">Which one; opens nothing.</param>
/// <param name="Device">What the device calls itself.</param>
/// <param name="MadeUnixMilliseconds">When the person signed in, in milliseconds since 1970 UTC.</param>
/// <param name="SeenUnixMilliseconds">When it was last used, in milliseconds since 1970 UTC.</param>
/// <param name="Replica">The last letters of the store that the device writes; none if it never said.</param>
/// <param name="IsThis">Whether it is the one that asks.</param>
public sealed record SessionSeen(
    Guid Id,
    string Device,
    long MadeUnixMilliseconds,
    long SeenUnixMilliseconds,
    string? Replica,
    bool IsThis
);

/// <summary>A person as the owner sees it.</summary>
/// <param name="Id">Which person.</param>
/// <param name="Name">What the person signs with.</param>
/// <param name="Role">The code of the role.</param>
/// <param name="IsOut">Whether the person was let out; the name stays.</param>
/// <param name="Sessions">Where the person is signed in.</param>
public sealed record PersonOfHouse(
    Guid Id,
    string Name,
    string Role,
    bool IsOut,
    IReadOnlyList<SessionSeen> Sessions
);

/// <summary>An invitation that waits to be used.</summary>
/// <param name="Id">Which one; opens nothing.</param>
/// <param name="Role">The code of the role.</param>
/// <param name="For">The name of the person it is for; none for somebody new.</param>
/// <param name="ExpiresUnixMilliseconds">From when it opens nothing, in milliseconds since 1970 UTC.</param>
public sealed record InvitationSeen(Guid Id, string Role, string? For, long ExpiresUnixMilliseconds);

/// <summary>An invitation just made: the only time that its code is told.</summary>
/// <param name="Seen">What it is.</param>
/// <param name="Code">What opens the house, once.</param>
public sealed record InvitationMade(InvitationSeen Seen, string Code);

/// <summary>Everybody, as the owner sees it.</summary>
/// <param name="People">In the order of coming.</param>
/// <param name="Invitations">Those that wait to be used.</param>
public sealed record HouseSeen(
    IReadOnlyList<PersonOfHouse> People,
    IReadOnlyList<InvitationSeen> Invitations
);

/// <summary>The word that a request that changes something must carry, so that no other page can make it.</summary>
/// <param name="Token">What goes into the header.</param>
public sealed record TokenSeen(string Token);

/// <summary>Why the server says no.</summary>
/// <param name="Code">The code, lower-case words joined by hyphens.</param>
/// <param name="Number">The one number it speaks of; none if it speaks of none.</param>
public sealed record Refused(string Code, int? Number = null);

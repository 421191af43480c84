namespace Broodtide.Workbench.People;

/// <summary>What the owner may know of the house's backups.</summary>
/// <param name="IsAsked">Whether the server was told to make any.</param>
/// <param name="Backups">Those that lie there, newest first.</param>
/// <param name="Trouble">Why the last one did not come about, in the server's words; none while all is well.</param>
/// <param name="TroubleUnixSeconds">When that was.</param>
public sealed record BackupsSeen(
    bool IsAsked,
    IReadOnlyList<BackupSeen> Backups,
    string? Trouble,
    long? TroubleUnixSeconds
);

/// <summary>One backup.</summary>
/// <param name="Name">The name of its file.</param>
/// <param name="MadeUnixSeconds">The instant it is of.</param>
/// <param name="Bytes">How large it is, in bytes.</param>
public sealed record BackupSeen(string Name, long MadeUnixSeconds, long Bytes);

using NodaTime;

namespace Broodtide.Server.Backups;

/// <summary>When the server backs its folder up, and where to.</summary>
/// <param name="Folder">Where the backups lie; made if it is not there.</param>
/// <param name="Every">How long after one the next is made.</param>
/// <param name="Keep">How many stay.</param>
/// <param name="Passphrase">What opens them; none for backups that everybody can read.</param>
internal sealed record BackupPlan(DirectoryInfo Folder, Duration Every, int Keep, string? Passphrase);

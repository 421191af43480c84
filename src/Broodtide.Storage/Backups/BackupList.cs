using System.Text.Json.Serialization;

namespace Broodtide.Storage.Backups;

/// <summary>What a backup says of itself: its list of contents, which stands at its end, twice.</summary>
/// <param name="Format">Always "broodtide-backup".</param>
/// <param name="Version">Shape of the list.</param>
/// <param name="Made">When it was begun, ISO 8601 in UTC.</param>
/// <param name="Journal">Name of the journal's file inside it.</param>
/// <param name="EntryCount">Entries in the journal as it was taken.</param>
/// <param name="Files">Every file, in the order they stand in it.</param>
public sealed record BackupList(
    string Format,
    int Version,
    string Made,
    string Journal,
    int EntryCount,
    IReadOnlyList<BackupItem> Files
)
{
    /// <summary>Bytes of all files together.</summary>
    [JsonIgnore]
    public long Bytes => Files.Sum(file => file.Bytes);

    /// <summary>How many photos are in it.</summary>
    [JsonIgnore]
    public int PhotoCount => Files.Count(file => file.Sort == BackupItem.Photo);
}

/// <summary>One file of a backup.</summary>
/// <param name="Name">Its place under the folder, parts joined by slashes.</param>
/// <param name="Sort">"journal", "store" (another SQLite file), "photo", "dossier" or "file".</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Sha256">64 lower-case hex figures.</param>
/// <param name="ChangedUnixMilliseconds">The file's own time, which says when a dossier was taken in.</param>
/// <param name="IsPrivate">Whether only its owner could read it.</param>
public sealed record BackupItem(
    string Name,
    string Sort,
    long Bytes,
    string Sha256,
    long ChangedUnixMilliseconds,
    bool IsPrivate
)
{
    internal const string Journal = "journal";
    internal const string Store = "store";
    internal const string Photo = "photo";
    internal const string Dossier = "dossier";
    internal const string File = "file";

    /// <summary>Whether the name stays under the folder, on every system.</summary>
    internal bool HasSafeName =>
        Name.Length is > 0 and < 500
        && Name.Split('/')
            .All(part =>
                part.Length > 0
                && part[0] != '.'
                && part[^1] is not ('.' or ' ')
                && !part.Any(sign =>
                    char.IsControl(sign) || sign is '\\' or ':' or '*' or '?' or '"' or '<' or '>' or '|'
                )
            );
}

/// <summary>How the list is written.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(BackupList))]
internal sealed partial class BackupJson : JsonSerializerContext;

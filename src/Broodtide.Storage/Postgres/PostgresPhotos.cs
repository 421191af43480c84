using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Storage.Postgres;

/// <summary>Photos in the database, so that servers on two machines share them and one dump holds all.</summary>
/// <param name="store">The database.</param>
public sealed class PostgresPhotos(PostgresStore store) : IPhotoShelf
{
    /// <inheritdoc/>
    public (string Sha256, bool IsNew) Put(ReadOnlySpan<byte> bytes)
    {
        var hash = PhotoIntake.HashOf(bytes);
        var kept = bytes.ToArray();
        if (Read(hash) is { } there)
        {
            if (!there.Succeeded)
            {
                store.Ask(connection =>
                    connection.Run(
                        "UPDATE photo SET bytes = @bytes WHERE sha256 = @hash",
                        ("hash", hash),
                        ("bytes", kept)
                    )
                );
            }

            return (hash, false);
        }

        return (
            hash,
            store.Ask(connection =>
                connection.Run(
                    "INSERT INTO photo (sha256, bytes) VALUES (@hash, @bytes) ON CONFLICT DO NOTHING",
                    ("hash", hash),
                    ("bytes", kept)
                ) == 1
            )
        );
    }

    /// <inheritdoc/>
    public bool Has(string sha256) => Lacking([sha256]).Count == 0;

    /// <inheritdoc/>
    public IReadOnlyList<string> Lacking(IEnumerable<string> hashes)
    {
        var asked = hashes.ToArray();
        var here = store
            .Ask(connection =>
                connection.List(
                    row => row.GetString(0),
                    "SELECT sha256 FROM photo WHERE sha256 = ANY(@hashes)",
                    ("hashes", asked)
                )
            )
            .ToHashSet(StringComparer.Ordinal);
        return [.. asked.Where(hash => !here.Contains(hash))];
    }

    /// <inheritdoc/>
    public Parsed<byte[]>? Read(string sha256) =>
        store.Ask(connection =>
            connection.Ask<byte[]>("SELECT bytes FROM photo WHERE sha256 = @hash", ("hash", sha256))
        )
            is not { } bytes
            ? null
        : PhotoIntake.HashOf(bytes) == sha256 ? Parsed<byte[]>.Of(bytes)
        : Parsed<byte[]>.No("photo-file-damaged", new Argument("file", $"{store.Name} {sha256}"));

    /// <inheritdoc/>
    public bool Remove(string sha256) =>
        store.Ask(connection =>
            connection.Run("DELETE FROM photo WHERE sha256 = @hash", ("hash", sha256)) == 1
        );

    /// <inheritdoc/>
    public IReadOnlyList<string> All() =>
        store.Ask(connection =>
            connection.List(row => row.GetString(0), "SELECT sha256 FROM photo ORDER BY sha256 COLLATE \"C\"")
        );
}

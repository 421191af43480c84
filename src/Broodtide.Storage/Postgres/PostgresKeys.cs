namespace Broodtide.Storage.Postgres;

/// <summary>
/// The keys by which servers of one house know each other's cookies and tokens. Whoever reads them can make such
/// cookies: they are as secret as the database's own password.
/// </summary>
/// <param name="store">The database.</param>
public sealed class PostgresKeys(PostgresStore store)
{
    /// <summary>Every key, as text.</summary>
    public IReadOnlyList<string> All() =>
        store.Ask(connection =>
            connection.List(row => row.GetString(0), "SELECT element FROM server_key ORDER BY name")
        );

    /// <summary>Keeps a key; one of that name stays.</summary>
    public void Keep(string name, string element)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentException.ThrowIfNullOrWhiteSpace(element);
        store.Ask(connection =>
            connection.Run(
                "INSERT INTO server_key (name, element) VALUES (@name, @element) ON CONFLICT DO NOTHING",
                ("name", name),
                ("element", element)
            )
        );
    }
}

using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>One transaction; what it did is taken back unless it is kept.</summary>
internal sealed class PostgresTurn(NpgsqlConnection connection) : IDisposable
{
    private readonly NpgsqlTransaction _transaction = connection.BeginTransaction();

    public NpgsqlConnection Connection => connection;

    /// <summary>Commits; on the disk when this returns.</summary>
    public void Keep() => _transaction.Commit();

    public void Dispose()
    {
        try
        {
            _transaction.Dispose();
        }
        catch (NpgsqlException)
        {
            // The line is cut: the database takes back what was not committed.
        }

        connection.Dispose();
    }
}

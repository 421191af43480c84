using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// A PostgreSQL database that holds a house: its journal and what it remembers beside. Several programs may have it open
/// at once. Every connection is seen to be durable when it is opened, and every change takes its turn.
/// </summary>
public sealed class PostgresStore : IDisposable
{
    // How long a database that starts anew is waited for before a person is told.
    private static readonly TimeSpan AwayAtMost = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan AwayPause = TimeSpan.FromMilliseconds(200);
    private const int PassingTries = 20;

    private readonly NpgsqlDataSource _source;

    private PostgresStore(NpgsqlDataSource source, string name, string schema)
    {
        _source = source;
        Name = name;
        Schema = schema;
    }

    /// <summary>How a person knows it: where and which, never who or by what secret.</summary>
    public string Name { get; }

    /// <summary>The schema in which the tables lie.</summary>
    public string Schema { get; }

    /// <summary>Opens the database, making the tables where there are none and the connection may.</summary>
    /// <param name="connection">
    /// What to connect to, as keywords and values: "Host=/run/postgresql;Database=broodtide;Username=broodtide". "Search
    /// Path" names the schema if it is not "broodtide".
    /// </param>
    /// <exception cref="StoreUnusableException">
    /// It cannot be reached, does not keep what it confirms, or holds something else. It was not changed.
    /// </exception>
    public static PostgresStore Open(string connection)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(connection);
        var wanted = PostgresSettings.Read(connection);
        var name = PostgresSettings.NameOf(wanted);
        var builder = new NpgsqlDataSourceBuilder(wanted.ToString());
        builder.UsePhysicalConnectionInitializer(
            opened => PostgresSettings.Require(opened, name),
            opened =>
            {
                PostgresSettings.Require(opened, name);
                return Task.CompletedTask;
            }
        );
        var store = new PostgresStore(builder.Build(), name, wanted.SearchPath!);
        try
        {
            store.Ask(opened =>
            {
                PostgresSchema.Prepare(opened, store.Schema, name);
                return true;
            });
            return store;
        }
        catch
        {
            store.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Makes the tables and lets a role use them, and nothing more: read and write rows, and have the months of readings
    /// made. For whoever owns the database, before a server of fewer rights is started.
    /// </summary>
    /// <param name="connection">As the owner.</param>
    /// <param name="role">Who may use them; none where the owner's own server does.</param>
    /// <exception cref="StoreUnusableException">It cannot be reached, or the role is not there.</exception>
    public static void Prepare(string connection, string? role)
    {
        using var store = Open(connection);
        if (role is not null)
        {
            store.Write(opened => PostgresRights.Give(opened, store.Schema, role));
        }
    }

    /// <summary>Closes all connections.</summary>
    public void Dispose() => _source.Dispose();

    /// <summary>Asks something, or does in one statement what may be done twice; once more where the line was cut.</summary>
    /// <exception cref="StoreUnusableException">The database cannot be reached, or failed.</exception>
    internal T Ask<T>(Func<NpgsqlConnection, T> question) =>
        Guarded(() =>
            Reached(() =>
            {
                using var connection = _source.OpenConnection();
                return question(connection);
            })
        );

    /// <summary>Asks many things of one moment.</summary>
    internal T Snapshot<T>(Func<NpgsqlConnection, T> question) =>
        Ask(connection =>
        {
            using var transaction = connection.BeginTransaction(System.Data.IsolationLevel.RepeatableRead);
            return question(connection);
        });

    /// <summary>
    /// Changes something in one transaction, while nobody else does: the one row of <c>life</c> is locked from its
    /// start to its end. On the disk when this returns.
    /// </summary>
    /// <exception cref="StoreUnusableException">
    /// The database cannot be reached or failed. Nothing was changed, unless the line was cut while it committed; then
    /// all of it was, or nothing.
    /// </exception>
    internal T Write<T>(Func<NpgsqlConnection, T> change) =>
        Within("SELECT one FROM life WHERE one = 1 FOR UPDATE", change);

    /// <summary>
    /// Changes something in one transaction that holds nobody up but who changes the same rows. On the disk when this
    /// returns.
    /// </summary>
    internal T Change<T>(Func<NpgsqlConnection, T> change) => Within("SELECT 1", change);

    private T Within<T>(string locking, Func<NpgsqlConnection, T> change) =>
        Guarded(() =>
        {
            for (var tries = 1; ; tries++)
            {
                try
                {
                    using var turn = Turn(locking);
                    var result = change(turn.Connection);
                    turn.Keep();
                    return result;
                }
                catch (PostgresException passing)
                    when (tries < PassingTries && PostgresFailure.IsPassing(passing))
                {
                    // All of it was taken back: once more from the start.
                }
            }
        });

    /// <summary>A transaction that has locked something, or waits until it has. Until then nothing is changed.</summary>
    internal PostgresTurn Turn(string locking) =>
        Reached(() =>
        {
            var turn = new PostgresTurn(_source.OpenConnection());
            try
            {
                turn.Connection.Run(locking);
                return turn;
            }
            catch
            {
                turn.Dispose();
                throw;
            }
        });

    /// <summary>Does something; a failure of the database becomes a reason.</summary>
    internal T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (NpgsqlException failure)
        {
            throw PostgresFailure.Of(Name, failure);
        }
    }

    // What changes nothing may be asked again while the database starts anew.
    private static T Reached<T>(Func<T> question)
    {
        var since = TimeProvider.System.GetTimestamp();
        while (true)
        {
            try
            {
                return question();
            }
            catch (NpgsqlException away)
                when (PostgresFailure.IsAway(away) && TimeProvider.System.GetElapsedTime(since) < AwayAtMost)
            {
                using var pause = new ManualResetEventSlim();
                pause.Wait(AwayPause);
            }
        }
    }
}

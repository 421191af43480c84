using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Households;

/// <summary>
/// What a server must remember beside the journal and never hands out: people, their sessions, which store is
/// whose, what was held back. One SQLite file, as durable as the journal.
/// </summary>
public sealed class HouseFile : HouseStore
{
    // "BrTh": a journal put in its place by mistake is not touched.
    private static readonly TableSteps Tables = new(
        0x42725468,
        "the people of a Broodtide house",
        HouseSchema.Steps
    );

    private readonly Lock _gate = new();
    private readonly SqliteConnection _connection;
    private readonly SharedTables _tables;

    private HouseFile(SqliteConnection connection, string path)
    {
        _connection = connection;
        _tables = new SharedTables(connection, text => text);
        Path = path;
    }

    /// <inheritdoc/>
    public override string Path { get; }

    /// <summary>Opens the file, making it where there is none.</summary>
    /// <param name="path">Place of the file; its folder must exist.</param>
    /// <exception cref="StoreUnusableException">
    /// The file is foreign, newer or damaged, or the disk does not keep what it promises. It was not changed.
    /// </exception>
    public static HouseFile Open(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        var connection = StoreSettings.ConnectionTo(path);
        try
        {
            connection.Open();
            Tables.RequireOurs(connection, path);
            StoreSettings.Apply(connection, path);
            Tables.Prepare(connection, path);
            return new HouseFile(connection, path);
        }
        catch (SqliteException failure)
        {
            connection.Dispose();
            throw StoreFailure.Of(path, failure);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Verifies a file of the house, which may be in use. It is not changed.</summary>
    /// <param name="path">Place of the file; where none is, nothing is wrong with it.</param>
    /// <returns>What is wrong.</returns>
    public static IReadOnlyList<Remark> Verify(string path) =>
        File.Exists(path) ? StoreCopy.Check(path, isJournal: false, CancellationToken.None).Faults : [];

    /// <inheritdoc/>
    public override void Dispose() => _connection.Dispose();

    /// <inheritdoc/>
    internal override T Ask<T>(Func<SharedTables, T> question)
    {
        lock (_gate)
        {
            return Guarded(() => question(_tables));
        }
    }

    /// <inheritdoc/>
    internal override T Change<T>(Func<SharedTables, T> change)
    {
        lock (_gate)
        {
            return Guarded(() => _connection.Within(() => change(_tables)));
        }
    }

    /// <inheritdoc/>
    internal override IDisposable Turn() => NoTurn.Instance;

    private T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(Path, failure);
        }
    }

    // One server has the file; a command line beside it changes one thing at a time.
    private sealed class NoTurn : IDisposable
    {
        public static NoTurn Instance { get; } = new();

        public void Dispose() { }
    }
}

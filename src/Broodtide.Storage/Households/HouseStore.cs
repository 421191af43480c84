namespace Broodtide.Storage.Households;

/// <summary>
/// What a server must remember beside the journal and never hands out: people, their sessions, which store is whose,
/// what was held back. As durable as the journal.
/// </summary>
public abstract class HouseStore : IDisposable
{
    private protected HouseStore() { }

    /// <summary>Where it lies, as a person knows it.</summary>
    public abstract string Path { get; }

    /// <inheritdoc/>
    public abstract void Dispose();

    /// <summary>Asks something.</summary>
    /// <exception cref="StoreUnusableException">It can no longer be read.</exception>
    internal abstract T Ask<T>(Func<SharedTables, T> question);

    /// <summary>Changes something in one transaction, one at a time; on the disk when this returns.</summary>
    /// <exception cref="StoreUnusableException">Nothing was changed.</exception>
    internal abstract T Change<T>(Func<SharedTables, T> change);

    /// <summary>Keeps other programs of the house waiting until it is disposed of; nothing where there is one program alone.</summary>
    internal abstract IDisposable Turn();
}

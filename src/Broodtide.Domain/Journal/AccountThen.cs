namespace Broodtide.Domain.Journal;

/// <summary>An account as it was known at an instant, kept to be brought up to date.</summary>
public sealed record AccountThen
{
    internal AccountThen(Account of, Account account, long taken, int entries)
    {
        Of = of;
        Account = account;
        Taken = taken;
        Entries = entries;
    }

    /// <summary>What was known.</summary>
    public Account Account { get; }

    internal Account Of { get; }

    internal long Taken { get; init; }

    internal int Entries { get; init; }
}

using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench;

/// <summary>What is kept from one outlook to the next; each part knows when it no longer holds.</summary>
internal sealed class OutlookKept
{
    private AccountThen? _then;
    private House? _house;

    /// <summary>The ledgers.</summary>
    public LedgersKept Ledgers { get; } = new();

    /// <summary>The twins of vessels.</summary>
    public Safety.TwinsKept Twins { get; } = new();

    /// <summary>What counts say by themselves.</summary>
    public CountsMeant Counts { get; } = new();

    /// <summary>The account as it was known at an instant, in pieces: nothing in each but the last.</summary>
    public IEnumerable<AccountThen?> ThenInPieces(Account account, Instant known)
    {
        var kept = _then;
        // Whoever breaks off leaves nothing half done behind.
        _then = null;
        AccountThen? then = null;
        foreach (var told in account.ThenInPieces(known, kept))
        {
            then = told;
            yield return null;
        }

        _then = then;
        yield return then;
    }

    /// <summary>The house of such an account; what was seen of it before is kept as far as it still holds.</summary>
    public House HouseOf(Account account) =>
        _house =
            _house is { } before && ReferenceEquals(before.Account, account)
                ? before.Renewed()
                : new House(account);
}

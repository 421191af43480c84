using Broodtide.Domain;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Workbench.Pooling;

/// <summary>Dossiers of others as they are heard when runs are pooled.</summary>
public static class OthersOfShelf
{
    /// <summary>One account a dossier, with the broods of its runs that no other dossier told already.</summary>
    /// <param name="runs">The runs of the shelf, each once.</param>
    /// <param name="own">The keeper's own house: a run of one's own that came back in a dossier is not heard twice.</param>
    public static IReadOnlyList<OthersAccount> Of(IReadOnlyList<ForeignRun> runs, House own)
    {
        var known = own.Runs.Select(run => run.Id).ToHashSet();
        return
        [
            .. runs.Where(run => !known.Contains(run.Run))
                .GroupBy(run => run.Dossier.Id, StringComparer.Ordinal)
                .Select(group => group.ToList())
                .Select(group => new OthersAccount(
                    group[0].Dossier is { By: { } by } named
                        ? $"{named.Title}, {by}"
                        : group[0].Dossier.Title,
                    group[0].House.Account,
                    group[0].ToldFor,
                    group[0].Zone,
                    group.Select(run => run.Brood).ToHashSet()
                )),
        ];
    }
}

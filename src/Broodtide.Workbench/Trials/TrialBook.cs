using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;

namespace Broodtide.Workbench.Trials;

/// <summary>A trial as it stands in the journal.</summary>
/// <param name="When">When it was laid out.</param>
/// <param name="Entry">The entry that says so.</param>
/// <param name="Laid">How.</param>
public sealed record TrialOfHouse(Happened When, EntryId Entry, TrialLaidOut Laid);

/// <summary>The trials of a house.</summary>
public static class TrialBook
{
    /// <summary>All of them, the latest last.</summary>
    public static IReadOnlyList<TrialOfHouse> Of(House house) =>
        [
            .. house
                .Account.Occurrences.Where(told => told.Fact is TrialLaidOut)
                .Select(told => new TrialOfHouse(told.Happened, told.Id, (TrialLaidOut)told.Fact)),
        ];

    /// <summary>The latest of a name; none where there is none.</summary>
    public static TrialOfHouse? Find(House house, string name) =>
        Of(house)
            .LastOrDefault(trial =>
                string.Equals(trial.Laid.Name, name.Trim(), StringComparison.OrdinalIgnoreCase)
            );
}

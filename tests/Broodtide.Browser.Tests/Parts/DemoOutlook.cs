using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

/// <summary>The invented house as it stands some days into its story.</summary>
internal static class DemoOutlook
{
    public static readonly DateTimeZone Zone = DateTimeZone.Utc;

    // Today's story, and the same one as it stood earlier: then later entries are not written yet.
    private static readonly Instant Today = Instant.FromUtc(2026, 5, 20, 18, 30);

    public static async Task<Outlook> Of(int daysAgo)
    {
        var now = Today - Duration.FromDays(daysAgo);
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var drafts = InventedHouse.Drafts(Today, Zone).Where(draft => draft.Written <= now).ToList();
        var entries = await journal.AppendAsync(drafts);
        return Outlook.Of(Account.Of(entries), now, Zone);
    }

    /// <summary>What the keeper of the invented house calls things.</summary>
    public static async Task<IReadOnlyList<string>> Names()
    {
        var house = (await Of(0)).House;
        return
        [
            .. new[]
            {
                house.Vessels.Select(it => it.Name),
                house.Animals.Select(it => it.Name),
                house.Runs.Select(it => it.Name),
                house.Broods.Select(it => it.Name),
                house.Instruments.Select(it => it.Description?.Name),
            }
                .SelectMany(names => names)
                .OfType<string>()
                .Distinct(),
        ];
    }

    /// <summary>The same with more written.</summary>
    public static async Task<Outlook> With(Outlook outlook, IEnumerable<Fact> facts)
    {
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var written = await journal.AppendAsync([
            .. facts.Select(fact => new Draft(
                new EntryId(Guid.CreateVersion7()),
                new Author("Broodtide", "0.1.0"),
                outlook.Now,
                Zone.Id,
                Happened.At(outlook.Now),
                fact
            )),
        ]);
        return Outlook.Of(Account.Of([.. outlook.House.Account.Entries, .. written]), outlook.Now, Zone);
    }
}

using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Workbench.Tests.Demo;

public class SixCrossingsTests
{
    [Fact]
    public async Task It_has_six_crossings_forty_five_days_and_forty_entries_of_which_all_agree()
    {
        var now = Instant.FromUtc(2026, 7, 20, 23, 0);
        var drafts = SixCrossings.Drafts(now, DateTimeZone.Utc);
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var account = Account.Of(
            await journal.AppendAsync([.. drafts], TestContext.Current.CancellationToken)
        );
        var outlook = Outlook.Of(account, now, DateTimeZone.Utc);

        Assert.Equal(40, drafts.Count);
        Assert.Equal(6, drafts.Count(draft => draft.Fact is CrossingMade));
        var population = Assert.Single(outlook.Populations);
        Assert.Equal(6, population.Cohorts.Count);
        Assert.InRange(population.Run.Now, SixCrossings.Days, SixCrossings.Days + 1);
        Assert.Empty(outlook.Conflicts);
        Assert.Equal(
            drafts.Select(draft => draft.Id),
            SixCrossings.Drafts(now, DateTimeZone.Utc).Select(draft => draft.Id)
        );
    }
}

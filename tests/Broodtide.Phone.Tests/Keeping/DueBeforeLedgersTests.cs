using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Phone.Tests.Keeping;

/// <summary>What was kept lets the phone tell what is due before the water of long ago; pages that need it wait for it.</summary>
public sealed class DueBeforeLedgersTests
{
    private const int Days = 400;
    private static readonly Instant Start = Instant.FromUtc(2025, 1, 1, 8, 0);
    private static readonly Instant Now = Start + Duration.FromDays(Days);

    [Fact]
    public async Task What_is_due_comes_first_where_something_was_kept_and_with_the_rest_where_nothing_was()
    {
        var account = Account.Of(Entries());
        var before = Outlook.Of(account, Now, DateTimeZone.Utc);
        Assert.NotNull(before.Due.Next);
        var kept = before.TakeCheckpoint();
        Assert.NotNull(kept);

        Assert.Equal([(true, false), (true, true), (true, true)], await StatesAsync(account, [kept]));
        Assert.Equal([(true, true), (true, true)], await StatesAsync(account, []));
    }

    // Whether what is due is known, and whether all can be shown, at each of the advances.
    private static async Task<IReadOnlyList<(bool Due, bool Shown)>> StatesAsync(
        Account account,
        IReadOnlyList<Checkpoint> kept
    )
    {
        var work = new OutlookWork(
            () => new Slicer(TimeSpan.FromDays(1), () => Task.CompletedTask, TimeProvider.System),
            () => Task.CompletedTask
        )
        {
            Kept = kept,
        };
        var states = new List<(bool, bool)>();
        work.Advanced += () => states.Add((work.Due is not null, work.Shown is not null));
        Assert.True(await work.RenewAsync(new House(account), Now, DateTimeZone.Utc));
        Assert.True(work.IsWhole);
        return states;
    }

    private static List<Entry> Entries()
    {
        var (jar, replica) = (new VesselId(Guid.CreateVersion7()), new ReplicaId(Guid.CreateVersion7()));
        var entries = new List<Entry>();
        Say(0, new VesselSetUp(jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")));
        Say(0, new VesselFilled(jar, new(Guid.CreateVersion7()), TypedNumber.Of(7.5, "L"), Salt(33)));
        for (var day = 1; day < Days; day++)
        {
            Say(day, new ReadingTaken(Salt(33 + (day % 3 / 2.0)), jar));
        }

        return entries;

        void Say(int day, Fact fact)
        {
            var when = Start + Duration.FromDays(day);
            entries.Add(
                new Draft(new(Guid.CreateVersion7()), new("Ada"), when, "UTC", Happened.At(when), fact).Seal(
                    replica,
                    entries.Count + 1,
                    entries.Count > 0 ? entries[^1].Digest : null,
                    new byte[EntryBytes.SaltLength]
                )
            );
        }

        static TypedNumber Salt(double value) => TypedNumber.Of(value, UnitCode.PracticalSalinity);
    }
}

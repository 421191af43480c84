using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>What does not agree in the journal itself. A conflict is shown beside its entry; it refuses nothing.</summary>
internal static class JournalConflicts
{
    // A phone's clock may be some hours off without anybody noticing; a day is asked about.
    private static readonly Duration ClockSlack = Duration.FromDays(1);

    public static IReadOnlyList<Remark> Of(Account account, Corrections corrections)
    {
        var found = new List<Remark>();
        Chains(account, found);
        foreach (var twins in account.Entries.GroupBy(entry => entry.Id).Where(group => group.Count() > 1))
        {
            found.Add(new Remark("identity-twice", new Argument("entry", twins.Key)));
        }

        foreach (var orphan in corrections.Orphans().OrderBy(orphan => orphan.Digest))
        {
            found.Add(
                new Remark(
                    "corrects-what-is-not-here",
                    new("entry", orphan.Id),
                    new("target", orphan.Envelope.Correction!.Value.Target)
                )
            );
        }

        foreach (var occurrence in account.Occurrences)
        {
            if (occurrence.HasRivals)
            {
                found.Add(
                    new Remark(
                        "rival-corrections",
                        new("entry", occurrence.Id),
                        new("stands", occurrence.Told.Id)
                    )
                );
            }

            if (occurrence.Fact is UnreadableFact unreadable)
            {
                found.Add(
                    new Remark(
                        "facts-unreadable",
                        new("entry", occurrence.Id),
                        new("reason", unreadable.Reason)
                    )
                );
            }

            if (occurrence.Happened.Earliest > occurrence.Written + ClockSlack)
            {
                found.Add(new Remark("happened-after-written", new Argument("entry", occurrence.Id)));
            }
        }

        return found;
    }

    private static void Chains(Account account, List<Remark> found)
    {
        foreach (
            var replica in account.Entries.GroupBy(entry => entry.Envelope.Replica).OrderBy(r => r.Key.Value)
        )
        {
            Entry? before = null;
            foreach (
                var entry in replica.OrderBy(entry => entry.Envelope.Sequence).ThenBy(entry => entry.Digest)
            )
            {
                if (before is not null && entry.Envelope.Sequence == before.Envelope.Sequence)
                {
                    found.Add(
                        new Remark(
                            "number-twice",
                            new("replica", replica.Key),
                            new("sequence", entry.Envelope.Sequence),
                            new("entry", entry.Id)
                        )
                    );
                    continue;
                }

                if (
                    before is not null
                    && entry.Envelope.Sequence == before.Envelope.Sequence + 1
                    && entry.Envelope.Previous != before.Digest
                )
                {
                    found.Add(
                        new Remark(
                            "chain-broken",
                            new("replica", replica.Key),
                            new("sequence", entry.Envelope.Sequence),
                            new("entry", entry.Id)
                        )
                    );
                }

                before = entry;
            }
        }
    }
}

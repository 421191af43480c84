using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Storage.Verifying;

/// <summary>
/// Tells every view anew from the entries alone: once in the order they lie in, once backwards, and once resting on the
/// checkpoints that are kept. All must come to the same.
/// </summary>
internal static class FoldsRebuilt
{
    public static IReadOnlyList<(string Name, int Count)> Of(
        IReadOnlyList<Entry> entries,
        IReadOnlyList<Checkpoint> checkpoints,
        Instant now,
        DateTimeZone zone,
        List<Remark> faults
    )
    {
        var told = new List<(string Name, int Count)>();
        var account = Account.Of(entries);
        var backwards = Account.Of(entries.Reverse());
        Tell("telling", () => account.Occurrences.Count);
        if (!account.Occurrences.Select(Shape).SequenceEqual(backwards.Occurrences.Select(Shape)))
        {
            faults.Add(Differs("telling"));
        }

        var index = SubjectIndex.Fold.Save(account.IndexFolding.State());
        Tell("index", () => Enum.GetValues<SubjectKind>().Sum(kind => account.Subjects(kind).Count()));
        if (!index.AsSpan().SequenceEqual(SubjectIndex.Fold.Save(backwards.IndexFolding.State())))
        {
            faults.Add(Differs("index"));
        }

        // Kept states are believed by their mark alone when a journal is opened, so they are compared here.
        foreach (var checkpoint in checkpoints)
        {
            var resting = Account.Of(entries);
            if (
                resting.IndexFolding.Offer(checkpoint)
                && !index.AsSpan().SequenceEqual(SubjectIndex.Fold.Save(resting.IndexFolding.State()))
            )
            {
                faults.Add(
                    new Remark(
                        "checkpoint-differs",
                        new("fold", checkpoint.Fold),
                        new("position", checkpoint.Position)
                    )
                );
            }
        }

        if (checkpoints.Count > 0 && !LedgersAgree(account, checkpoints, now, zone))
        {
            faults.Add(Differs("ledgers"));
        }

        var house = new House(account);
        Tell("animals", () => house.Animals.Count());
        Tell("broods", () => house.Broods.Count());
        Tell("vessels", () => house.Vessels.Count());
        Tell("cohorts", () => house.Cohorts.Count());
        Tell("runs", () => house.Runs.Count());
        Tell("instruments", () => house.Instruments.Count());
        Tell("conflicts", () => account.Conflicts().Count);
        Tell("outlook", () => Outlook.Of(account, now, zone).House.Account.EntryCount);
        return told;

        void Tell(string name, Func<int> rebuild)
        {
            try
            {
                told.Add((name, rebuild()));
            }
            catch (Exception failure)
                when (failure is not (OperationCanceledException or OutOfMemoryException))
            {
                faults.Add(
                    new Remark("fold-cannot-be-rebuilt", new("fold", name), new("reason", failure.Message))
                );
            }
        }
    }

    // What is kept of the ledgers is believed by its mark too.
    private static bool LedgersAgree(
        Account account,
        IReadOnlyList<Checkpoint> checkpoints,
        Instant now,
        DateTimeZone zone
    )
    {
        var anew = Outlook.Of(account, now, zone);
        var resting = Outlook.Of(account, now, zone, kept: checkpoints);
        return anew.StandingLedgers.Select(Told).SequenceEqual(resting.StandingLedgers.Select(Told));

        static (VesselId, int, int, Interval, Interval, Interval, Interval) Told(VesselLedger ledger) =>
            (
                ledger.Vessel,
                ledger.FillNumber,
                ledger.Rows.Count,
                ledger.SalinityPpt,
                ledger.Litres,
                ledger.SaltGrams,
                ledger.EvaporationMillilitresPerDay
            );
    }

    private static string Shape(Occurrence occurrence) =>
        $"{occurrence.Told.Digest} {occurrence.First.Digest} {occurrence.HasRivals}";

    private static Remark Differs(string fold) => new("fold-differs", new Argument("fold", fold));
}

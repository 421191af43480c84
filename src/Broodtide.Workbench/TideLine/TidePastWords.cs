using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>The lines of the tide line in words that tell what happened, in no order yet.</summary>
internal static class TidePastWords
{
    public static IEnumerable<TideWord> Of(TideLineRecord record) =>
        [.. Brood(record), .. Larvae(record), .. Vessels(record), .. Ends(record), .. Entries(record)];

    private static TideWord Past(
        TideLineRecord record,
        TideWordCode code,
        Instant at,
        Guid? entryId = null
    ) =>
        new()
        {
            Code = code,
            Tense = TideTense.Past,
            At = at,
            SeaDay = TideFleet.SeaDay(record, at) is >= 0 and var day ? day : null,
            EntryId = entryId,
            Corrected = record.Entries.Any(entry => entry.Id == entryId && entry.Corrected),
        };

    private static IEnumerable<TideWord> Brood(TideLineRecord record)
    {
        if (record.Brood.FirstSeenBerried is { } berried && !Has(record, TideMarkKind.Berried))
        {
            yield return Past(record, TideWordCode.BroodMark, berried) with
            {
                Mark = TideMarkKind.Berried,
            };
        }

        foreach (var mark in record.Brood.Marks)
        {
            yield return Past(record, TideWordCode.BroodMark, mark.From, mark.EntryId) with
            {
                Mark = mark.Kind,
                Until = mark.To > mark.From ? mark.To : null,
            };
        }

        if (record.Brood.LastSeenCarrying is { } carrying)
        {
            yield return Past(record, TideWordCode.LastSeenCarrying, carrying);
        }

        foreach (var night in record.Nights)
        {
            var at = record.Zone.AtStartOfDay(night.Evening.PlusDays(1)).ToInstant();
            if (night.Collected is { } collected)
            {
                yield return Past(record, TideWordCode.NightCollected, at) with
                {
                    Number = Interval.Exactly(collected),
                };
            }
            else if (at <= record.Now && night.Chance > 0)
            {
                yield return Past(record, TideWordCode.NightChance, at) with
                {
                    Chance = night.Chance,
                };
            }
        }
    }

    private static IEnumerable<TideWord> Larvae(TideLineRecord record)
    {
        foreach (var crossing in record.Crossings)
        {
            var word = Past(record, TideWordCode.Crossing, crossing.At, crossing.EntryId);
            yield return word with
            {
                Number = crossing.Larvae,
                Name = NameOf(record, crossing.VesselId),
                Corrected = word.Corrected || crossing.Corrected,
            };
        }

        foreach (var count in record.Counts)
        {
            yield return Past(record, TideWordCode.Count, count.At, count.EntryId) with
            {
                Number = count.Larvae,
                Name = NameOf(record, count.VesselId),
            };
        }

        foreach (var returned in record.Return?.Seen ?? [])
        {
            yield return Past(record, TideWordCode.Returned, returned);
        }
    }

    private static IEnumerable<TideWord> Vessels(TideLineRecord record)
    {
        foreach (var vessel in record.Vessels)
        {
            if (vessel.SplitFrom is { } split)
            {
                yield return Past(record, TideWordCode.Split, split.At) with
                {
                    Name = vessel.Name,
                    OtherName = NameOf(record, split.VesselId),
                };
            }

            if (vessel.JoinedInto is { } joined)
            {
                yield return Past(record, TideWordCode.Joined, joined.At) with
                {
                    Name = vessel.Name,
                    OtherName = NameOf(record, joined.VesselId),
                };
            }

            foreach (var reading in vessel.Readings.Where(reading => !reading.Fits))
            {
                yield return Past(record, TideWordCode.DoesNotFit, reading.At) with
                {
                    Name = vessel.Name,
                    Number = reading.Ppt,
                };
            }
        }
    }

    private static IEnumerable<TideWord> Ends(TideLineRecord record)
    {
        if (record.NoneSeenSince is { } none)
        {
            yield return Past(record, TideWordCode.NoneSeen, none);
        }

        foreach (var end in record.Ends)
        {
            if (end.LastSeenAlive is { } alive)
            {
                yield return Past(record, TideWordCode.LastSeenAlive, alive);
            }

            if (end.FirstSeenNone is { } firstNone)
            {
                yield return Past(record, TideWordCode.NoneSeen, firstNone);
            }

            yield return Past(
                record,
                end.Kind == TideEndKind.Home ? TideWordCode.EndedHome : TideWordCode.EndedGivenUp,
                end.At
            ) with
            {
                Number = TideTrack.LastAboveZero(record.Alive, end.At),
            };
        }
    }

    private static IEnumerable<TideWord> Entries(TideLineRecord record)
    {
        var told = record
            .Crossings.Select(crossing => crossing.EntryId)
            .Concat(record.Counts.Select(count => count.EntryId))
            .Concat(record.Brood.Marks.Select(mark => mark.EntryId))
            .ToHashSet();
        foreach (var entry in record.Entries)
        {
            TideWordCode? code = entry switch
            {
                _ when entry.At > record.Now => TideWordCode.InTheFuture,
                { Mark: TideEntryMark.NeedsNewerVersion } => TideWordCode.NeedsNewerVersion,
                { Corrected: true } when !told.Contains(entry.Id) => TideWordCode.CorrectedEntry,
                _ => null,
            };
            if (code is { } said)
            {
                yield return Past(record, said, entry.At, entry.Id);
            }
        }
    }

    private static bool Has(TideLineRecord record, TideMarkKind kind) =>
        record.Brood.Marks.Any(mark => mark.Kind == kind);

    private static string? NameOf(TideLineRecord record, Guid vesselId) =>
        record.Vessels.FirstOrDefault(vessel => vessel.Id == vesselId)?.Name;
}

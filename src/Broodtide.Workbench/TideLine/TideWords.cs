using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>
/// The tide line in words, for eyes that do not see the picture, for paper and for the command line: all the picture
/// shows, oldest first, then what is believed now, then what is expected.
/// </summary>
public static class TideWords
{
    /// <summary>The lines of a record.</summary>
    public static IReadOnlyList<TideWord> Of(TideLineRecord record) =>
        [
            .. TidePastWords.Of(record).OrderBy(word => word.At),
            .. Present(record),
            .. Future(record).OrderBy(word => word.At),
        ];

    /// <summary>The table beside the lines: one row a week, at the end of its Sunday or now, from the first crossing.</summary>
    public static IReadOnlyList<TideReadout> Weeks(TideLineRecord record)
    {
        if (TideFleet.SeaFrom(record) is not { } from)
        {
            return [];
        }

        var last = record.Ends.Count > 0 ? record.Ends.Max(end => end.At) : LastKnown(record);
        var rows = new List<TideReadout>();
        var monday = from.InZone(record.Zone).Date.With(DateAdjusters.NextOrSame(IsoDayOfWeek.Monday));
        for (; record.Zone.AtStartOfDay(monday).ToInstant() <= last; monday = monday.PlusWeeks(1))
        {
            rows.Add(TideReadout.Of(record, record.Zone.AtStartOfDay(monday).ToInstant()));
        }

        return rows;
    }

    private static Instant LastKnown(TideLineRecord record)
    {
        var last = record.Now;
        foreach (var row in record.Alive.Concat(record.Vessels.SelectMany(vessel => vessel.Salinity)))
        {
            last = Instant.Max(last, row.At);
        }

        return last;
    }

    private static IEnumerable<TideWord> Present(TideLineRecord record)
    {
        TideWord Now(TideWordCode code) =>
            new()
            {
                Code = code,
                Tense = TideTense.Now,
                At = record.Now,
                SeaDay = TideFleet.SeaDay(record, record.Now),
            };

        if (record.Ends.Count == 0)
        {
            if (record.Brood.LaterThanNineInTen)
            {
                yield return Now(TideWordCode.NowLaterThanNineInTen);
            }
            else if (record.Crossings.Count == 0)
            {
                yield return Now(TideWordCode.NowCarried);
            }

            foreach (var vessel in Inhabited(record))
            {
                yield return Now(TideWordCode.NowSalinity) with
                {
                    Name = vessel.Name,
                    Number = TideTrack.At(vessel.Salinity, record.Now),
                };
                if (record.Vessels.Count > 1 && TideTrack.At(vessel.Alive, record.Now) is { } there)
                {
                    yield return Now(TideWordCode.NowAlive) with
                    {
                        Name = vessel.Name,
                        Number = there,
                        Rough = vessel.AliveIsRough,
                    };
                }

                if (vessel.OfOtherRuns is { } others)
                {
                    yield return Now(TideWordCode.NowOfOtherRuns) with
                    {
                        Name = vessel.Name,
                        Number = others,
                    };
                }
            }

            var readout = TideReadout.Of(record, record.Now);
            if (readout.Alive is { } alive)
            {
                yield return Now(TideWordCode.NowAlive) with
                {
                    Number = alive,
                    Rough = record.AliveIsRough,
                };
            }

            if (readout.Stages.Count > 0)
            {
                yield return Now(TideWordCode.NowStages) with
                {
                    Stages = readout.Stages,
                };
            }
        }

        if (record.Entries.Count > 0)
        {
            yield return Now(TideWordCode.NowEntries) with
            {
                Number = Interval.Exactly(record.Entries.Count),
            };
        }
    }

    private static IEnumerable<TideVessel> Inhabited(TideLineRecord record) =>
        record.Vessels.Where(vessel =>
            TideFleet.From(record, vessel) is { } from
            && from <= record.Now
            && (vessel.JoinedInto is null || vessel.JoinedInto.At > record.Now)
            && record.Crossings.Count > 0
        );

    private static IEnumerable<TideWord> Future(TideLineRecord record)
    {
        TideWord Expected(TideWordCode code, Instant at) =>
            new()
            {
                Code = code,
                Tense = TideTense.Expected,
                At = at,
                SeaDay = TideFleet.SeaDay(record, at),
            };

        if (record.Ends.Count > 0)
        {
            yield break;
        }

        if (record.Hatch is { } hatch)
        {
            yield return Expected(TideWordCode.HatchExpected, hatch.Middle) with
            {
                Days = hatch,
            };
        }

        foreach (var night in record.Nights.Where(night => night.Collected is null && night.Chance > 0))
        {
            var at = record.Zone.AtStartOfDay(night.Evening.PlusDays(1)).ToInstant();
            if (at > record.Now)
            {
                yield return Expected(TideWordCode.NightChance, at) with
                {
                    Chance = night.Chance,
                };
            }
        }

        if (record.Breach is { } breach)
        {
            yield return Expected(TideWordCode.BreachExpected, breach.At) with
            {
                Name = record.Vessels.FirstOrDefault(vessel => vessel.Id == breach.VesselId)?.Name,
                LimitPpt = breach.LimitPpt,
                TooSalt = breach.TooSalt,
            };
        }

        if (record.Return?.Settlement is { } settlement)
        {
            (TideWordCode, TideDays)[] window =
            [
                (TideWordCode.SettlementBeginsExpected, settlement.First),
                (TideWordCode.SettlementHalfExpected, settlement.Half),
                (TideWordCode.SettlementEndsExpected, settlement.NineTenths),
            ];
            foreach (var (code, when) in window.Where(one => one.Item2.Late > record.Now))
            {
                yield return Expected(code, when.Middle) with
                {
                    Days = when,
                };
            }
        }
        else if (record.Return?.Forecast is { } days)
        {
            yield return Expected(TideWordCode.ReturnExpected, days.Middle) with
            {
                Days = days,
            };
        }

        if (record.Return?.Juveniles is [.., var last] && last.At > record.Now)
        {
            yield return Expected(TideWordCode.JuvenilesExpected, last.At) with
            {
                Number = last.Value,
            };
        }
    }
}

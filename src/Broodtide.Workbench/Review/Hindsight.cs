using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>
/// Each rule of advice held against what came, with what was written down by then and nothing more: limits of the water a day
/// before each reading, and the night of hatching one, four and eight days before the first larvae.
/// </summary>
public static class Hindsight
{
    /// <summary>So many looks are made if nothing else is said, the newest.</summary>
    public const int UsualMost = 24;

    // A warning reaches two days ahead; a day before a reading lies in the middle of that.
    private static readonly Duration Before = Duration.FromDays(1);

    // Larvae within so long are what the list for the night speaks of.
    private static readonly Duration Soon = Duration.FromDays(2);

    private static readonly int[] DaysBeforeLarvae = [1, 4, 8];

    private sealed record Asked(Instant At, WaterReading? Reading, BroodId? Brood, Instant CameAt);

    /// <summary>The rules in pieces: none at each pause, the answer last.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="most">At most so many looks, 1 or more, the newest.</param>
    public static IEnumerable<IReadOnlyList<RuleOnTrial>?> InPieces(Outlook outlook, int most = UsualMost)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        return Pieces(outlook, most);
    }

    private static IEnumerable<IReadOnlyList<RuleOnTrial>?> Pieces(Outlook outlook, int most)
    {
        var asked = AskedOf(outlook)
            .OrderByDescending(look => look.At)
            .Take(most)
            .OrderBy(look => look.At)
            .ToList();
        yield return null;
        // One account that grows as it was written: what did not change from look to look is kept.
        var entries = outlook.House.Account.Entries.OrderBy(entry => entry.Envelope.Written).ToList();
        var account = new Account();
        var taken = 0;
        Outlook? then = null;
        var looks = new List<(LimitedQuantity? Quantity, RuleLook Look)>();
        foreach (var look in asked)
        {
            var until = taken;
            while (until < entries.Count && entries[until].Envelope.Written <= look.At)
            {
                until++;
            }

            account.AddAll(entries.GetRange(taken, until - taken));
            taken = until;
            yield return null;
            then = then?.Renewed(look.At) ?? Outlook.Of(account, look.At, outlook.Zone);
            foreach (var step in StepsOf(then, look))
            {
                step();
                yield return null;
            }

            if (Look(outlook, then, look) is { } told)
            {
                looks.Add((look.Reading?.Quantity, told));
            }
        }

        yield return
        [
            .. looks
                .GroupBy(look => look.Quantity)
                .OrderBy(rule => rule.Key is null ? -1 : (int)rule.Key)
                .Select(rule => new RuleOnTrial(rule.Key, [.. rule.Select(look => look.Look)])),
        ];
    }

    private static IEnumerable<Asked> AskedOf(Outlook outlook)
    {
        foreach (var run in outlook.House.Runs)
        {
            if (ReviewSpan.Of(outlook, run.Id) is not { } span)
            {
                continue;
            }

            if (span.Brood.FirstLarvae is { } larvae)
            {
                foreach (var days in DaysBeforeLarvae)
                {
                    var at = larvae.Earliest - Duration.FromDays(days);
                    if (at > span.From)
                    {
                        yield return new(at, null, span.Brood.Id, larvae.Latest);
                    }
                }
            }

            foreach (var reading in new ReviewReadings(span).All)
            {
                var at = reading.At - Before;
                if (at > span.Stays.First(stay => stay.Vessel.Id == reading.Vessel).From)
                {
                    yield return new(at, reading, null, reading.At);
                }
            }
        }
    }

    private static IEnumerable<Action> StepsOf(Outlook then, Asked look) =>
        look.Reading is { } reading
            ? then.LedgerSteps().Concat(then.SafetySteps(reading.Vessel))
            : then.ForecastSteps(look.Brood!.Value);

    private static RuleLook? Look(Outlook outlook, Outlook then, Asked look)
    {
        if (look.Reading is not { } reading)
        {
            var brood = look.Brood!.Value;
            var warned = then.Due.Items.Any(item =>
                item.Action.Code is ActionCodes.LookForLarvae or ActionCodes.SomeoneAtHome
                && item.Action.About == Subject.Of(brood)
                && item.Action.From <= look.At
            );
            return new(
                look.At,
                Subject.Of(brood),
                warned,
                look.CameAt,
                OutcomeOf(warned, look.CameAt - look.At <= Soon)
            );
        }

        if (then.SafetyOf(reading.Vessel) is not { } safety)
        {
            return null;
        }

        var limits = safety.Limits.Where(limit => limit.Limit.Quantity == reading.Quantity).ToList();
        if (limits.Count == 0)
        {
            return null;
        }

        var alarmed = limits.Exists(limit => limit.Level >= SafetyLevel.Warning);
        var outcome =
            reading.Lies is Lies.AtTheLimit ? RuleOutcome.Undecided
            : alarmed
            && reading.Lies is Lies.Inside
            && Acted(outlook.House, reading.Vessel, look.At, reading.At)
                ? RuleOutcome.Undecided
            : OutcomeOf(alarmed, reading.Lies is Lies.Outside);
        return new(look.At, Subject.Of(reading.Vessel), alarmed, reading.At, outcome);
    }

    private static RuleOutcome OutcomeOf(bool warned, bool came) =>
        (warned, came) switch
        {
            (true, true) => RuleOutcome.Hit,
            (false, true) => RuleOutcome.Missed,
            (true, false) => RuleOutcome.FalseAlarm,
            _ => RuleOutcome.Quiet,
        };

    // Whoever changed the water after a warning may have kept from happening what it warned of.
    private static bool Acted(House house, VesselId vessel, Instant from, Instant until) =>
        house
            .Account.About(Subject.Of(vessel))
            .Any(told =>
                told.Happened.Latest > from
                && told.Happened.Earliest <= until
                && told.Fact is WaterMoved or VesselFilled or HeaterChanged or AirChanged
            );
}

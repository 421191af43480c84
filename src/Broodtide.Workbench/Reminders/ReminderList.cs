using Broodtide.Domain.Journal;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Reminders;

/// <summary>
/// All that belongs into a keeper's calendar: what is due and planned, the gatherings of the night at hand, and the
/// days of hatching and settling. In the order of time.
/// </summary>
public sealed class ReminderList
{
    // Plans reach no further than one brood's time: eggs a month, larvae two. A calendar needs no more.
    private static readonly Duration Ahead = Duration.FromDays(90);

    // Nobody opens a calendar at a night that will hardly bring larvae; our choice.
    private const double ChanceWorthAnAlarm = 0.05;

    private ReminderList(IReadOnlyList<Reminder> items, Instant now, DateTimeZone zone)
    {
        Items = items;
        Now = now;
        Zone = zone;
    }

    /// <summary>At most so many are told, the next ones first.</summary>
    public const int Most = 400;

    /// <summary>The instant it is told for.</summary>
    public Instant Now { get; }

    /// <summary>The keeper's zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The reminders in the order of time.</summary>
    public IReadOnlyList<Reminder> Items { get; }

    /// <summary>The list of an outlook, worked out at once.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="hours">The hours at which nobody can; asleep from 23 to 7 if left out.</param>
    public static ReminderList Of(Outlook outlook, KeeperHours? hours = null) =>
        InPieces(outlook, hours).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<ReminderList?> InPieces(Outlook outlook, KeeperHours? hours = null)
    {
        foreach (var step in outlook.Steps())
        {
            step();
            yield return null;
        }

        var items = Actions(outlook).Concat(Hatchings(outlook)).ToList();
        foreach (var brood in outlook.BroodsUnderWay)
        {
            CollectionTimes.Answered? answer = null;
            foreach (var piece in outlook.CollectionTimesInPieces(brood.Id, hours))
            {
                answer = piece;
                yield return null;
            }

            if (answer?.Times is { } times && times.Chance.Value >= ChanceWorthAnAlarm)
            {
                items.AddRange(Gatherings(times));
            }
        }

        items.AddRange(outlook.Populations.SelectMany(population => Settlings(outlook, population)));
        yield return new(
            [
                .. items
                    .DistinctBy(item => item.Uid)
                    .OrderBy(item => BeginsAt(item, outlook.Zone))
                    .ThenBy(item => item.Uid, StringComparer.Ordinal)
                    .Take(Most),
            ],
            outlook.Now,
            outlook.Zone
        );
    }

    /// <summary>The same list with the alarms of sensors that last and that nobody has seen: from now on, an hour long.</summary>
    /// <param name="alarms">Alarms of any state.</param>
    public ReminderList With(IEnumerable<AlarmSpan> alarms) =>
        new(
            [
                .. alarms
                    .Where(alarm => alarm.Lasts && alarm.Seen is null)
                    .Select(alarm => new Reminder
                    {
                        Uid = UidOf($"alarm/{alarm.Id:N}"),
                        Kind = ReminderKind.Alarm,
                        Time = new ReminderTime.Hours(alarm.Raised, Now + Duration.FromHours(1)),
                        About = alarm.Vessel is { } vessel ? Subject.Of(vessel) : Subject.House,
                        Alarm = alarm,
                        Matters = true,
                    }),
                .. Items,
            ],
            Now,
            Zone
        );

    /// <summary>When a reminder begins; of days the midnight before them.</summary>
    public Instant BeginsAt(Reminder reminder)
    {
        ArgumentNullException.ThrowIfNull(reminder);
        return BeginsAt(reminder, Zone);
    }

    private static Instant BeginsAt(Reminder reminder, DateTimeZone zone) =>
        reminder.Time switch
        {
            ReminderTime.Hours hours => hours.From,
            ReminderTime.Days days => zone.AtStartOfDay(days.First).ToInstant(),
            _ => throw new ArgumentOutOfRangeException(nameof(reminder)),
        };

    // What is due, and of plans what lies further ahead. What was done or left out is told as off.
    private static IEnumerable<Reminder> Actions(Outlook outlook)
    {
        var due = outlook.Due.Items.Select(item => item.Action).ToList();
        var listed = due.Select(action => action.Key).ToHashSet(StringComparer.Ordinal);
        var dueUntil = due.Count > 0 ? due.Max(action => action.From) : outlook.Now;
        return due.Concat(
                outlook
                    .Plans.SelectMany(plan => plan.Actions)
                    .Where(action => !listed.Contains(action.Key))
                    // A planned one that the list left out is stood for by another.
                    .Where(action => !action.IsOpen || action.From > dueUntil)
                    .Where(action => action.From <= outlook.Now + Ahead)
            )
            .Select(action => new Reminder
            {
                Uid = UidOf(action.Key),
                Kind = ReminderKind.Action,
                Time = ReminderTimes.Of(action, outlook.Now, outlook.Zone),
                About = action.About,
                Action = action,
                Matters = action.IsOpen && !action.MaySlip,
                IsOverdue = action.IsOpen && ReminderTimes.IsOverdue(action, outlook.Now),
                IsOff = !action.IsOpen,
            });
    }

    private static IEnumerable<Reminder> Gatherings(CollectionTimes times) =>
        times.Gatherings.Select(
            (gathering, at) =>
                new Reminder
                {
                    Uid = UidOf($"gathering/{times.Brood.Value:N}/{Occasion.Of(times.Evening)}.{at + 1}"),
                    Kind = ReminderKind.Gathering,
                    Time = new ReminderTime.Hours(gathering.At, gathering.At + Duration.FromMinutes(30)),
                    About = Subject.Of(times.Brood),
                    Gathering = gathering,
                    Matters = true,
                }
        );

    private static IEnumerable<Reminder> Hatchings(Outlook outlook) =>
        outlook.Forecasts.Select(forecast => new Reminder
        {
            Uid = UidOf($"hatching/{forecast.Brood.Value:N}"),
            Kind = ReminderKind.HatchWindow,
            Time = ReminderTimes.Days(forecast.Window90.From, forecast.Window90.To, outlook.Zone),
            About = Subject.Of(forecast.Brood),
        });

    private static IEnumerable<Reminder> Settlings(Outlook outlook, LarvalPopulation population)
    {
        if (
            outlook.EstimateAtHand(population) is not { Settlement: var settlement } estimate
            || estimate.All.Alive.High < 1
            || settlement.NineTenths.Late < outlook.Now
            || population.Cohorts is not [var cohort, ..]
        )
        {
            yield break;
        }

        yield return new Reminder
        {
            Uid = UidOf($"settling/{cohort.Id.Value:N}"),
            Kind = ReminderKind.SettlementWindow,
            // From when the first may be found to when half have settled at the latest.
            Time = ReminderTimes.Days(settlement.First.Middle, settlement.Half.Late, outlook.Zone),
            About = population.Vessels.Count > 0 ? Subject.Of(population.Vessels[^1]) : Subject.Of(cohort.Id),
        };
    }

    // The key names what, which thing and which occasion; none of it is a forecast.
    private static string UidOf(string key) => $"{key.Replace('/', '-')}@broodtide";
}

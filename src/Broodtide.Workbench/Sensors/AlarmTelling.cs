using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>Somebody who is told of alarms.</summary>
/// <param name="Key">A short word in place of a name.</param>
/// <param name="Step">At which step of the escalation, from 0.</param>
/// <param name="QuietFrom">From when the person sleeps; none for no quiet hours.</param>
/// <param name="QuietTo">Until when.</param>
/// <param name="Zone">The person's time zone.</param>
public sealed record ToldPerson(
    string Key,
    int Step,
    LocalTime? QuietFrom,
    LocalTime? QuietTo,
    DateTimeZone Zone
)
{
    /// <summary>Whether the person sleeps.</summary>
    /// <param name="now">When.</param>
    public bool IsQuietAt(Instant now)
    {
        if (QuietFrom is not { } from || QuietTo is not { } to || from == to)
        {
            return false;
        }

        var time = now.InZone(Zone).TimeOfDay;
        return from < to ? time >= from && time < to : time >= from || time < to;
    }
}

/// <summary>Somebody is to be told of an alarm now.</summary>
/// <param name="Person">Whom.</param>
/// <param name="Step">The step that has come.</param>
public sealed record DueTelling(ToldPerson Person, int Step);

/// <summary>
/// Who is told of an alarm, and when. At once those of step 0; then, each time so many minutes have gone by and nobody has
/// said that he has seen it, those of the next step and all before once more. Nobody is told in his quiet hours: the telling
/// waits for their end. Where animals die of it within hours, quiet hours do not count. What failed is tried again after one
/// minute, then two, four and so on, at most fifteen.
/// </summary>
public static class AlarmTelling
{
    private const int LongestWaitMinutes = 15;

    /// <summary>Who is to be told now.</summary>
    /// <param name="alarm">The alarm.</param>
    /// <param name="people">Everybody who is told of alarms.</param>
    /// <param name="tried">What was tried for this alarm so far.</param>
    /// <param name="escalateAfter">How long a step waits.</param>
    /// <param name="now">The time.</param>
    public static IReadOnlyList<DueTelling> Due(
        AlarmSpan alarm,
        IReadOnlyList<ToldPerson> people,
        IReadOnlyList<AlarmDelivery> tried,
        Duration escalateAfter,
        Instant now
    )
    {
        ArgumentNullException.ThrowIfNull(alarm);
        ArgumentNullException.ThrowIfNull(people);
        ArgumentNullException.ThrowIfNull(tried);
        if (alarm.Seen is not null || !alarm.Lasts || people.Count == 0 || now < alarm.Raised)
        {
            return [];
        }

        var last = people.Max(person => person.Step);
        var step = (int)Math.Min(last, Math.Floor((now - alarm.Raised) / escalateAfter));
        return
        [
            .. people
                .Where(person => person.Step <= step)
                .Where(person => alarm.IsLifeThreatening || !person.IsQuietAt(now))
                .Where(person =>
                {
                    var own = tried.Where(one => one.To == person.Key).ToList();
                    return !own.Exists(one => one.Failure is null && one.Step >= step)
                        && !IsTooSoon(own, now);
                })
                .Select(person => new DueTelling(person, step)),
        ];
    }

    private static bool IsTooSoon(List<AlarmDelivery> own, Instant now)
    {
        var failures = own.AsEnumerable().Reverse().TakeWhile(one => one.Failure is not null).ToList();
        return failures.Count > 0
            && now - failures[0].At
                < Duration.FromMinutes(Math.Min(LongestWaitMinutes, Math.Pow(2, failures.Count - 1)));
    }
}

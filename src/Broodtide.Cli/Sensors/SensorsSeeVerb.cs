using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Cli.Sensors;

/// <summary>That an alarm was seen, and whether it was somebody else before.</summary>
internal sealed record SensorAlarmSeenAnswer(string Alarm, string Sensor, string SeenAt, bool WasSeenBefore);

/// <summary>Says that an alarm was seen: nobody is told of it any more.</summary>
internal static class SensorsSeeVerb
{
    private const int LeastTyped = 6;

    public static VerbCommand Make()
    {
        var name = Slot.Word(
            "ALARM",
            "The alarm, or its last six figures or more, as `sensors alarms` shows them."
        );
        return new(
            "see",
            "Say that you have seen an alarm: nobody is told of it any more. It lasts until the water is right again.",
            [],
            [name],
            async sitting =>
            {
                var typed = name.Text(sitting.Parse)!;
                await using var store = SensorsVerb.Open(sitting);
                var known = store is null
                    ? []
                    : await store.AlarmsAsync(
                        sitting.Now - Duration.FromDays(SensorsSeen.Days),
                        sitting.Cancellation
                    );
                var found = known.Where(alarm => IsMeant(alarm.Id, typed)).ToList();
                if (found.Count != 1)
                {
                    return sitting.NotUnderstood([
                        new Remark(
                            found.Count == 0 ? "alarm-unknown" : "alarm-not-one",
                            new Argument("typed", typed)
                        ),
                    ]);
                }

                // This program knows nobody: who sits at the machine of the house has seen it.
                var seen = await AlarmSeeing.SeeAsync(
                    store!,
                    found[0].Id,
                    new(sitting.Now, Guid.Empty),
                    sitting.Cancellation
                );
                if (seen?.Seen is not { } marked)
                {
                    return sitting.NotUnderstood([new Remark("alarm-unknown", new Argument("typed", typed))]);
                }

                var answer = new SensorAlarmSeenAnswer(
                    seen.Id.ToString(),
                    seen.Sensor.ToString(),
                    Saying.Iso(marked.At),
                    found[0].Seen is not null
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorAlarmSeenAnswer,
                    page =>
                        page.Line(
                            answer.WasSeenBefore
                                ? $"The alarm of {seen.Sensor} was seen before: {answer.SeenAt}."
                                : $"The alarm of {seen.Sensor} is seen. Nobody is told of it any more."
                        )
                );
            }
        );
    }

    private static bool IsMeant(Guid alarm, string typed) =>
        Guid.TryParse(typed, out var whole)
            ? whole == alarm
            : typed.Length >= LeastTyped
                && alarm
                    .ToString("N")
                    .EndsWith(
                        typed.Replace("-", "", StringComparison.Ordinal),
                        StringComparison.OrdinalIgnoreCase
                    );
}

using Broodtide.Cli.Door;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Cli.Writing;

/// <summary>Larvae that were measured, written down.</summary>
internal static class MeasuredVerb
{
    public static EntryVerb Make()
    {
        const string How =
            "one number for each larva, such as \"2410 2350\"; or 2380..2410..2440 with its bounds.";
        var vessel = Slot.Word("VESSEL", "Where they came from.");
        var lengths = Slot.Option("--um", $"Length along the axis in um: {How}", "NUMBERS");
        var beats = Slot.Option("--beats", $"Heartbeats a minute: {How}", "NUMBERS");
        var swimming = Slot.Option("--swimming", $"Percent of those seen that moved: {How}", "NUMBERS");
        var cohort = Slot.Option("--cohort", "The cohort, if known, such as \"Brood 2#1\".", "COHORT");
        var scale = Slot.Option("--scale", "What the scale rests on: ruler, taps or number.", "WORD");
        return new(
            "measured",
            "Larvae were measured: length, heart rate, share that moved.",
            ["write measured \"Jar A\" --um \"2410 2350\" --scale ruler"],
            [vessel, lengths, beats, swimming, cohort, scale],
            told =>
                [
                    new LarvaeMeasured(
                        told.Said.TheVessel(vessel),
                        Values(told.Said, lengths),
                        Values(told.Said, beats),
                        Values(told.Said, swimming),
                        told.Said.Cohort(cohort),
                        told.Said.Member<ScaleBy>(scale)
                    ),
                ]
        );
    }

    private static List<MeasuredValue>? Values(Said said, Slot slot)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        var values = new List<MeasuredValue>();
        foreach (var part in text.Split([' ', ';', '+'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (MeasuredValue.Read(part) is { } value)
            {
                values.Add(value);
            }
            else
            {
                said.Add(new Remark("measured-not-read", new("field", slot.Name), new("typed", part)));
            }
        }

        return values;
    }
}

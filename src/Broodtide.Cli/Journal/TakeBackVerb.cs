using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;

namespace Broodtide.Cli.Journal;

/// <summary>Takes an entry back: it did not happen.</summary>
internal static class TakeBackVerb
{
    public static Command Make()
    {
        var target = Slot.Word("ENTRY", "The entry, as \"journal\" shows it, or \"last\".");
        var reason = Slot.Option("--reason", "Why.", "TEXT");
        return new VerbCommand(
            "take-back",
            "Take an entry back: it did not happen. It stays readable. Of a correction: the correction does not stand.",
            ["take-back last --reason \"wrong jar\""],
            [target, reason],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                return said.Entry(target) is { } entry
                    ? await Entries.AppendAsync(sitting, [sitting.Keeper.TakeBack(entry, said.Text(reason))])
                    : sitting.NotUnderstood(said.Wrong);
            }
        );
    }
}

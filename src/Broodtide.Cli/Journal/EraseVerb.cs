using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Cli.Journal;

/// <summary>Removes the facts of an entry for ever.</summary>
internal static class EraseVerb
{
    public static Command Make()
    {
        var target = Slot.Word("ENTRY", "The entry, as \"journal\" shows it, or \"last\".");
        var reason = Slot.Option("--reason", "Why.", "TEXT");
        var yes = Slot.Flag("--yes", "Do it: what is erased cannot be brought back.");
        return new VerbCommand(
            "erase",
            "Remove the facts of an entry here and wherever it syncs. That something was removed stays.",
            ["erase last --reason \"a private note\" --yes"],
            [target, reason, yes],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                if (said.Entry(target) is not { } entry)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                if (!said.Flag(yes))
                {
                    return sitting.Refuse(
                        [new Remark("erase-needs-yes", new Argument("entry", entry.Id))],
                        await sitting.SayingAsync()
                    );
                }

                // Asked before: afterwards nobody knows which files the entry named.
                var files = PhotoNames.LetGo((await sitting.AccountAsync()).Entries, [entry.Id]);
                var code = await Entries.AppendAsync(
                    sitting,
                    [sitting.Keeper.Erase(entry, said.Text(reason))]
                );
                foreach (var file in files)
                {
                    PhotoFolder.Beside(sitting.JournalPath).Remove(file);
                }

                return code;
            }
        );
    }
}

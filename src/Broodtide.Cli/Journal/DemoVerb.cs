using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;

namespace Broodtide.Cli.Journal;

/// <summary>What was invented.</summary>
internal sealed record DemoAnswer(string File, int EntryCount, string Keeper);

/// <summary>Writes the invented journal.</summary>
internal static class DemoVerb
{
    public static Command Make()
    {
        var file = Slot.Word("FILE", "Place of the new journal; nothing may be there yet.");
        var sensors = Slot.Flag(
            "--sensors",
            "Three invented sensors too, in a file beside it; one is stuck."
        );
        return new VerbCommand(
            "demo",
            "Write an invented journal to try things in: a lost brood, one in the sea phase, one still carried.",
            ["demo demo.broodtide", "demo sensed.broodtide --sensors"],
            [file, sensors],
            async sitting =>
            {
                var path = file.Text(sitting.Parse)!;
                if (File.Exists(path))
                {
                    return sitting.Refuse([new Remark("file-is-there", new Argument("file", path))]);
                }

                await using var journal = await SqliteJournal.OpenAsync(path, "cli", sitting.Cancellation);
                var written = await journal.AppendAsync(
                    InventedHouse.Drafts(sitting.Now, sitting.Zone),
                    sitting.Cancellation
                );
                if (sensors.Text(sitting.Parse) is not null)
                {
                    await using var store = ReadingsFile.Open(ReadingsFile.BesidePath(path));
                    var account = Account.Of(await journal.ReadAllAsync(sitting.Cancellation));
                    await InventedSensors.WriteAsync(
                        store,
                        Outlook.Of(account, sitting.Now, sitting.Zone),
                        sitting.Cancellation
                    );
                }

                return sitting.Answer(
                    new DemoAnswer(path, written.Count, InventedHouse.Keeper),
                    CliJson.Default.DemoAnswer,
                    page =>
                        page.Line(
                                $"{written.Count} invented entries of the keeper {InventedHouse.Keeper} are in {path}."
                            )
                            .Line($"Try: broodtide due --journal {path}")
                );
            }
        );
    }
}

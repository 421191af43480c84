using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;

namespace Broodtide.Cli.Journal;

/// <summary>Whether a store is whole.</summary>
internal sealed record VerifyAnswer(string File, int EntryCount, IReadOnlyList<RemarkJson> Faults);

/// <summary>Verifies every byte of the store.</summary>
internal static class VerifyVerb
{
    public static Command Make() =>
        new VerbCommand(
            "verify",
            "Read the whole journal and verify every byte: pages, hashes, and the chain of each writer.",
            ["verify"],
            [],
            async sitting =>
            {
                if (!File.Exists(sitting.JournalPath))
                {
                    return sitting.NotUnderstood([
                        new Remark("file-not-there", new Argument("file", sitting.JournalPath)),
                    ]);
                }

                var journal = await sitting.OpenAsync();
                var faults = await journal.VerifyAsync(sitting.Cancellation);
                var saying = new Saying(sitting.Zone, null);
                var count = faults.Count > 0 ? 0 : (await journal.ReadAllAsync(sitting.Cancellation)).Count;
                var answer = new VerifyAnswer(sitting.JournalPath, count, [.. faults.Select(saying.Json)]);
                sitting.Answer(
                    answer,
                    CliJson.Default.VerifyAnswer,
                    page =>
                    {
                        page.Line(
                            faults.Count == 0
                                ? $"{count} entries, every byte as it was written."
                                : $"{faults.Count} things are wrong:"
                        );
                        foreach (var fault in answer.Faults)
                        {
                            page.Line(fault.Words);
                        }
                    }
                );
                return faults.Count == 0 ? ExitCode.Done : ExitCode.NotUnderstood;
            }
        );
}

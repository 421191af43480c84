using System.CommandLine;
using System.Text;
using Broodtide.Cli.Door;
using Broodtide.Workbench.Answers;

namespace Broodtide.Cli.Ahead;

/// <summary>Writes all that is computed as one text for machines: the same that the phone writes.</summary>
internal static class AnswersVerb
{
    public static Command Make() =>
        new VerbCommand(
            "answers",
            "Everything that is computed, as one JSON text for machines; the phone writes the same from the same journal.",
            ["answers", "answers --at 2026-03-01T18:00:00Z"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                await sitting.Out.WriteLineAsync(Encoding.UTF8.GetString(AnswersText.Write(outlook)));
                return ExitCode.Done;
            }
        );
}

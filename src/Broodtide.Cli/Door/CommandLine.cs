using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Data.Common;
using Broodtide.Storage;
using Broodtide.Units;

namespace Broodtide.Cli.Door;

/// <summary>The program as a whole: from the words of a call to an exit code.</summary>
internal static class CommandLine
{
    /// <summary>Runs one call.</summary>
    public static async Task<int> RunAsync(
        IReadOnlyList<string> args,
        Surroundings surroundings,
        CancellationToken cancellation = default
    )
    {
        var global = new GlobalOptions();
        var parse = Parse(Root(global, Verbs.In(args)), args);
        if (parse.Errors.Count > 0)
        {
            // What is wrong with it is told by all words there are.
            global = new();
            parse = Parse(Root(global), args);
        }

        var command = parse.CommandResult.Command;
        // Help and version come before what is missing.
        var asksForHelp =
            parse.Action is not null
            && !ReferenceEquals(parse.Action, command.Action)
            && parse.Action is not ParseErrorAction;
        var sitting = new Sitting(parse, global, surroundings, cancellation);
        try
        {
            if (asksForHelp)
            {
                var code = await parse.InvokeAsync(
                    new InvocationConfiguration
                    {
                        Output = surroundings.Out,
                        Error = surroundings.Error,
                        EnableDefaultExceptionHandler = false,
                    },
                    cancellation
                );
                if (parse.Action is HelpAction)
                {
                    PrintExamples(surroundings.Out, command);
                }

                return code;
            }

            if (parse.Errors.Count > 0 || command is not VerbCommand verb)
            {
                return sitting.NotUnderstood([
                    .. parse
                        .Errors.Select(error => error.Message)
                        .Distinct(StringComparer.Ordinal)
                        .Select(message => new Remark(
                            "call-not-understood",
                            new Argument("message", message)
                        )),
                    new Remark("call-wanted", new Argument("wanted", Wanted(command))),
                ]);
            }

            return sitting.Wrong.Count > 0 ? sitting.NotUnderstood(sitting.Wrong) : await verb.Act(sitting);
        }
        catch (StoreUnusableException unusable)
        {
            return sitting.NotUnderstood([unusable.Reason]);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or DbException)
        {
            return sitting.NotUnderstood([
                new Remark("outside-failed", new Argument("message", OneLine(failure.Message))),
            ]);
        }
        catch (OperationCanceledException)
        {
            return sitting.NotUnderstood([new Remark("broken-off")]);
        }
        catch (Exception fault)
        {
            return sitting.NotUnderstood([
                new Remark(
                    "fault-of-this-program",
                    new("type", fault.GetType().Name),
                    new("message", OneLine(fault.Message))
                ),
            ]);
        }
        finally
        {
            await sitting.DisposeAsync();
        }
    }

    // A response file would read "@5" as a file's name.
    private static ParseResult Parse(RootCommand root, IReadOnlyList<string> args) =>
        root.Parse(
            args.Count == 0 ? ["--help"] : args,
            new ParserConfiguration { ResponseFileTokenReplacer = null }
        );

    /// <summary>The whole tree of words.</summary>
    /// <param name="global">Options of every verb.</param>
    /// <param name="verbs">Which verbs; all unless told otherwise.</param>
    public static RootCommand Root(GlobalOptions global, IReadOnlyList<Verb>? verbs = null)
    {
        var root = new RootCommand(
            "Broodtide carries one brood of an amphidromous shrimp from a berried female to juveniles in fresh water:\n"
                + "it keeps the journal, tells what is due, and does the water arithmetic.\n\n"
                + "Exit codes: 0 done, 1 a rule says no or something is asked back, 2 not understood."
        );
        global.AddTo(root);
        foreach (var verb in verbs ?? Verbs.All)
        {
            root.Subcommands.Add(verb.Make());
        }

        return root;
    }

    private static void PrintExamples(TextWriter output, Command command)
    {
        IReadOnlyList<string> examples = command switch
        {
            VerbCommand verb => verb.Examples,
            RootCommand => ["demo demo.broodtide", "due --journal demo.broodtide"],
            _ => [],
        };
        if (examples.Count > 0)
        {
            output.WriteLine("Examples:");
        }

        foreach (var example in examples)
        {
            output.WriteLine($"  broodtide {example}");
        }
    }

    // The words and places of a command, as they are typed.
    private static string Wanted(Command command)
    {
        var words = new List<string>(command.Arguments.Select(argument => argument.Name));
        if (command.Subcommands.Count > 0)
        {
            words.Add("VERB");
        }

        for (var at = command; at is not null; at = at.Parents.OfType<Command>().FirstOrDefault())
        {
            words.Insert(0, at is RootCommand ? "broodtide" : at.Name);
        }

        return string.Join(' ', words);
    }

    private static string OneLine(string message) => message.ReplaceLineEndings(" ");
}

using System.CommandLine;

namespace Broodtide.Server.Tests.Kit;

/// <summary>A command as a person types it, with what it prints. One at a time: the console is one.</summary>
internal static class Typed
{
    private static readonly SemaphoreSlim One = new(1, 1);

    public static Task<(int Code, string Said, string Complained)> Run(
        TemporaryFolder folder,
        params string[] words
    ) =>
        Run(
            CommandLine.For((_, _) => Task.FromResult(Started)),
            [.. words, "--data", folder.Folder.FullName]
        );

    public static async Task<(int Code, string Said, string Complained)> Run(
        RootCommand root,
        IReadOnlyList<string> words
    )
    {
        await One.WaitAsync(TestContext.Current.CancellationToken);
        var (normal, error) = (Console.Out, Console.Error);
        using var said = new StringWriter();
        using var complained = new StringWriter();
        try
        {
            Console.SetOut(said);
            Console.SetError(complained);
            var parsed = root.Parse(words);
            var code = await parsed.InvokeAsync(cancellationToken: TestContext.Current.CancellationToken);
            return (parsed.Errors.Count > 0 ? 2 : code, said.ToString(), complained.ToString());
        }
        finally
        {
            Console.SetOut(normal);
            Console.SetError(error);
            One.Release();
        }
    }

    /// <summary>What the test's server answers when it would start.</summary>
    public const int Started = 77;
}

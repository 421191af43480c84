namespace Broodtide.Cli.Door;

/// <summary>What a call ends with.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>A rule says no, or something is asked back; nothing was written.</summary>
    public const int RuleSaysNo = 1;

    /// <summary>Not understood, or a file or the disk failed; nothing was written.</summary>
    public const int NotUnderstood = 2;
}

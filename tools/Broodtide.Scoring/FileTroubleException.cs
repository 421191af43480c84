namespace Broodtide.Scoring;

/// <summary>A file that cannot be scored: which, where, what stands there and what is allowed.</summary>
public sealed class FileTroubleException : Exception
{
    public FileTroubleException() { }

    public FileTroubleException(string message)
        : base(message) { }

    public FileTroubleException(string message, Exception inner)
        : base(message, inner) { }

    public static FileTroubleException At(string file, int line, string what) =>
        new($"{file}, line {line}: {what}");
}

namespace Broodtide.Checks;

/// <summary>A row or file that is not in the format of check files. The message says what is allowed.</summary>
public sealed class CheckFormatException : Exception
{
    public CheckFormatException() { }

    public CheckFormatException(string message)
        : base(message) { }

    public CheckFormatException(string message, Exception innerException)
        : base(message, innerException) { }
}

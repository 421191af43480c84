using Broodtide.Units;

namespace Broodtide.Workbench.Sharing;

/// <summary>The way to the house: carries a request there and its answer back, or fails.</summary>
public interface IServerLink
{
    /// <summary>Asks one thing.</summary>
    /// <param name="request">One of <see cref="GateRequest"/>.</param>
    /// <param name="body">What is sent.</param>
    /// <param name="cancellation">Gives up; the house may have done it all the same.</param>
    /// <exception cref="HouseAwayException">No answer came; the house may have done it all the same.</exception>
    /// <exception cref="HouseRefusedException">The house said no; nothing was changed there.</exception>
    Task<byte[]> AskAsync(string request, byte[] body, CancellationToken cancellation = default);
}

/// <summary>No answer came from the house.</summary>
public sealed class HouseAwayException : Exception
{
    /// <summary>No answer came.</summary>
    public HouseAwayException()
        : base("No answer came from the house.") { }

    /// <summary>No answer came.</summary>
    public HouseAwayException(string message)
        : base(message) { }

    /// <summary>No answer came, because of another failure.</summary>
    public HouseAwayException(string message, Exception inner)
        : base(message, inner) { }
}

/// <summary>The house said no.</summary>
public sealed class HouseRefusedException : Exception
{
    /// <summary>The house said no, without a reason.</summary>
    public HouseRefusedException()
        : this(SharingText.NotUnderstood) { }

    /// <summary>The house said no, without a reason.</summary>
    public HouseRefusedException(string message)
        : base(message) => Reason = SharingText.NotUnderstood;

    /// <summary>The house said no, without a reason, because of another failure.</summary>
    public HouseRefusedException(string message, Exception inner)
        : base(message, inner) => Reason = SharingText.NotUnderstood;

    /// <summary>The house said no, for a reason.</summary>
    public HouseRefusedException(Remark reason)
        : base(reason?.ToString()) => Reason = reason ?? throw new ArgumentNullException(nameof(reason));

    /// <summary>Why.</summary>
    public Remark Reason { get; }

    /// <summary>The failure that an answer of refusal stands for.</summary>
    /// <param name="body">The bytes that came.</param>
    public static HouseRefusedException Of(ReadOnlyMemory<byte> body) => new(SharingText.ReadRefusal(body));
}

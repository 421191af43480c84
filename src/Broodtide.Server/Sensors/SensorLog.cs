namespace Broodtide.Server.Sensors;

/// <summary>What of sensors goes into the log: codes, never a name of a person, an address or a password.</summary>
internal static partial class SensorLog
{
    [LoggerMessage(Level = LogLevel.Information, Message = "The broker is there.")]
    public static partial void BrokerIsThere(this ILogger log);

    [LoggerMessage(Level = LogLevel.Warning, Message = "The broker cannot be reached: {Code}.")]
    public static partial void BrokerIsAway(this ILogger log, string code);

    [LoggerMessage(Level = LogLevel.Error, Message = "Readings could not be kept: {Code}.")]
    public static partial void NotKept(this ILogger log, string code);

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "An alarm could not be delivered: alarm {Alarm}, way {Way}, to {Key}: {Code}."
    )]
    public static partial void NotDelivered(
        this ILogger log,
        Guid alarm,
        string way,
        string key,
        string code
    );

    [LoggerMessage(Level = LogLevel.Error, Message = "Work on the readings of sensors failed: {Failure}.")]
    public static partial void WorkFailed(this ILogger log, string failure);
}

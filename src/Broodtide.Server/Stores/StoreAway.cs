using Broodtide.Storage;

namespace Broodtide.Server.Stores;

/// <summary>
/// A store that cannot be reached just now is said to be away, so that a phone keeps what it has and asks again; the log
/// gets the code alone.
/// </summary>
internal static partial class StoreAway
{
    private const string RetryAfterSeconds = "5";

    public static void UseStoreAway(this WebApplication app) =>
        app.Use(
            async (context, next) =>
            {
                try
                {
                    await next(context);
                }
                catch (StoreUnusableException unusable) when (!context.Response.HasStarted)
                {
                    Tell(app.Logger, unusable.Reason.Code);
                    context.Response.Clear();
                    context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
                    context.Response.Headers.RetryAfter = RetryAfterSeconds;
                }
            }
        );

    [LoggerMessage(Level = LogLevel.Error, Message = "The store cannot be used ({Code}).")]
    private static partial void Tell(ILogger logger, string code);
}

using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>The functions of <c>photos.js</c>, where they are told.</summary>
internal static partial class PhotoModule
{
    private const string Module = "photos";

    public static Task LoadAsync() => JSHost.ImportAsync(Module, "../photos.js");

    [JSImport("shrink", Module)]
    public static partial Task<JSObject?> ShrinkAsync(string field);

    [JSImport("named", Module)]
    public static partial JSObject Named(JSObject shot, string photo, string thumbnail);

    [JSImport("addressOf", Module)]
    public static partial Task<string> AddressOfAsync(string hash);

    [JSImport("letGo", Module)]
    public static partial void LetGo(string address);

    [JSImport("fetchPhoto", Module)]
    public static partial Task<bool> FetchAsync(string hash);

    [JSImport("lengthOf", Module)]
    public static partial Task<int> LengthOfAsync(string hash);

    [JSImport("sendPiece", Module)]
    public static partial Task<string> SendPieceAsync(string hash, int from, int length);
}
